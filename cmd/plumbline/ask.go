package main

import (
	"context"
	"fmt"
	"strings"

	"charm.land/huh/v2"

	"plumbline/analysis/intake/draft"
)

// isConversation tells whether a person is there to answer questions.
func (a *app) isConversation() bool { return a.inIsTyped && a.errIsShown }

// ownAnswer is the choice of an answer that the list does not have.
const ownAnswer = "something else"

// ask puts one question, with its choices and samples; the answer is empty where it is left open.
func (a *app) ask(ctx context.Context, q draft.Question) (string, error) {
	var about []string
	if len(q.Samples) > 0 {
		about = append(about, "such as "+strings.Join(q.Samples, " | "))
	}
	if q.Rows > 0 {
		about = append(about, counted(q.Rows, "row"))
	}
	answer := ""
	choices := []huh.Option[string]{}
	for _, choice := range q.Choices {
		choices = append(choices, huh.NewOption(choice, choice))
	}
	choices = append(choices, huh.NewOption(ownAnswer, ownAnswer), huh.NewOption("leave it open", ""))
	if len(q.Choices) > 0 {
		answer = q.Choices[0] // the likeliest stands under the cursor
		err := a.run(ctx, huh.NewSelect[string]().Title(q.Question).Description(strings.Join(about, "; ")).Options(choices...).Value(&answer))
		if err != nil || answer != ownAnswer {
			return answer, err
		}
		answer = ""
	}
	err := a.run(ctx, huh.NewInput().Title(q.Question).Description(fmt.Sprintf("%s; nothing leaves it open", strings.Join(append(about, q.Key), "; "))).Value(&answer))
	return strings.TrimSpace(answer), err
}

func (a *app) run(ctx context.Context, field huh.Field) error {
	return huh.NewForm(huh.NewGroup(field)).WithInput(a.in).WithOutput(a.drawn).RunWithContext(ctx)
}
