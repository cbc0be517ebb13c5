package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"plumbline/analysis/intake/draft"
)

func newProfile(a *app) *cobra.Command {
	var (
		out, sheet string
		given      []string
		language   bool
		format     formatFlag
	)
	cmd := &cobra.Command{
		Use:   "profile FILE",
		Short: "Draft the mapping profile of a foreign export",
		Long: "Look at a CSV, XLSX, JSON or NDJSON file that is not in the record layout and draft the profile that reads it. What the\n" +
			"file tells is taken, with the reason; what it does not tell is asked: on a terminal one question after the other, else\n" +
			"the questions are printed with their keys, to be answered with --answer. With every question answered the draft\n" +
			"imports as it is. The draft goes to standard output, or with --out to a file, which is not written over.",
		Example: "  plumbline profile office.csv\n" +
			"  plumbline profile office.xlsx --out office.toml\n" +
			"  plumbline profile office.csv --answer shop=Northgate --answer date_order=mdy --format json\n" +
			"  plumbline profile --language",
		Args: func(cmd *cobra.Command, args []string) error {
			if language {
				return cobra.NoArgs(cmd, args)
			}
			return cobra.ExactArgs(1)(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if language {
				_, err := fmt.Fprint(a.out, draft.Language)
				return err
			}
			answers, err := answersOf(given, sheet)
			if err != nil {
				return err
			}
			if err := mayBeWritten(out); err != nil {
				return err
			}
			drafted, err := a.drafted(cmd.Context(), args[0], answers, cmd.Flags().Changed("format"))
			if err != nil {
				return err
			}
			return a.giveDraft(drafted, out, format, cmd.Flags().Changed("format"))
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "write the draft to this `file`")
	cmd.Flags().StringVar(&sheet, "sheet", "", "the `sheet` of a workbook, or \"all like NAME\"; as --answer sheet=NAME")
	cmd.Flags().StringArrayVar(&given, "answer", nil, "answer a question: `KEY=VALUE`; a later answer counts")
	cmd.Flags().BoolVar(&language, "language", false, "print the guide to the language of profiles and to the keys of answers")
	format = addFormat(cmd)
	return cmd
}

func answersOf(given []string, sheet string) ([]draft.Answer, error) {
	var answers []draft.Answer
	if sheet != "" {
		answers = append(answers, draft.Answer{Key: "sheet", Value: sheet})
	}
	for _, text := range given {
		answer, err := draft.ParseAnswer(text)
		if err != nil {
			return nil, usageError{err}
		}
		answers = append(answers, answer)
	}
	return answers, nil
}

// drafted reads the file, and on a terminal asks what is open, as long as a person answers.
func (a *app) drafted(ctx context.Context, file string, answers []draft.Answer, isAsked bool) (draft.Draft, error) {
	var passed []string
	for {
		drafted, err := draft.Read(ctx, file, answers...)
		if wrong := (*draft.WrongAnswer)(nil); errors.As(err, &wrong) {
			if len(passed) == 0 {
				return drafted, usageError{err}
			}
			fmt.Fprintln(a.err, err)
			answers, passed = answers[:len(answers)-1], passed[:len(passed)-1]
			continue
		}
		if err != nil || isAsked || !a.isConversation() {
			return drafted, err
		}
		question := firstOpen(drafted.Questions, passed)
		if question == nil {
			return drafted, nil
		}
		value, err := a.ask(ctx, *question)
		if err != nil {
			return drafted, err
		}
		passed = append(passed, question.Key)
		if value != "" {
			answers = append(answers, draft.Answer{Key: question.Key, Value: value})
		}
	}
}

// firstOpen is the first question that was not put yet.
func firstOpen(questions []draft.Question, passed []string) *draft.Question {
	for i := range questions {
		isPassed := false
		for _, key := range passed {
			isPassed = isPassed || key == questions[i].Key
		}
		if !isPassed {
			return &questions[i]
		}
	}
	return nil
}

// giveDraft writes the draft, says what was taken from the file, and prints what is open.
func (a *app) giveDraft(drafted draft.Draft, out string, format formatFlag, isAsked bool) error {
	a.tellDraft(drafted)
	questions := gridOf(questionRows(drafted.Questions))
	switch {
	case out != "":
		if err := writeDraft(out, drafted.TOML); err != nil {
			return err
		}
		if len(drafted.Questions) > 0 || format.word != "table" {
			if err := format.print(a, questions); err != nil {
				return err
			}
		}
		fmt.Fprintf(a.err, "written: %s; try it: plumbline import %s --profile %s --dry-run\n", out, drafted.File, out)
	case isAsked:
		if err := format.print(a, questions); err != nil {
			return err
		}
	default:
		if _, err := fmt.Fprint(a.out, drafted.TOML); err != nil {
			return err
		}
		if err := questions.writeTable(a.err, a.err, 0); err != nil {
			return err
		}
	}
	if len(drafted.Questions) == 0 {
		return nil
	}
	fmt.Fprintf(a.err, "open questions: %d; answer each with --answer 'KEY=VALUE'\n", len(drafted.Questions))
	return errPartial
}

// A questionRow is a question as a table shows it.
type questionRow struct {
	Key, Question    string
	Choices, Samples []string
	Rows             int64
}

func questionRows(questions []draft.Question) []questionRow {
	rows := make([]questionRow, len(questions))
	for i, q := range questions {
		rows[i] = questionRow(q)
	}
	return rows
}

// tellDraft says what a person should know of the draft.
func (a *app) tellDraft(drafted draft.Draft) {
	for _, notice := range drafted.Notices {
		fmt.Fprintln(a.err, notice)
	}
	for _, taken := range drafted.Taken {
		fmt.Fprintf(a.err, "taken: %s = %s (%s)\n", taken.Key, taken.Value, taken.Reason)
	}
	if len(drafted.Unmapped) > 0 {
		fmt.Fprintf(a.err, "not mapped: %s\n", strings.Join(drafted.Unmapped, ", "))
	}
}
