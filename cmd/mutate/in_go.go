package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strconv"
)

// turned are the operators and what each is turned into.
var turned = map[token.Token]token.Token{
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR, token.EQL: token.NEQ,
	token.NEQ: token.EQL, token.LAND: token.LOR, token.LOR: token.LAND, token.ADD: token.SUB, token.SUB: token.ADD,
	token.MUL: token.QUO, token.QUO: token.MUL, token.REM: token.MUL,
	token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN, token.MUL_ASSIGN: token.QUO_ASSIGN,
	token.INC: token.DEC, token.DEC: token.INC, token.CONTINUE: token.BREAK, token.BREAK: token.CONTINUE,
}

// inGo finds sites in a Go file: operators, negations, numbers, and calls whose result nobody takes.
func inGo(text []byte) ([]site, error) {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, "", text, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	var found []site
	at := func(pos token.Pos, length int, new string) {
		from := files.Position(pos).Offset
		found = append(found, site{from: from, to: from + length, new: new})
	}
	turn := func(pos token.Pos, operator token.Token) {
		if other, ok := turned[operator]; ok {
			at(pos, len(operator.String()), other.String())
		}
	}
	ast.Inspect(file, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.ImportSpec, *ast.Field: // a tag or a path is no number of ours
			return false
		case *ast.BinaryExpr:
			if isText(n.X) || isText(n.Y) {
				return true // texts can be added, not taken away
			}
			turn(n.OpPos, n.Op)
		case *ast.AssignStmt:
			turn(n.TokPos, n.Tok)
		case *ast.IncDecStmt:
			turn(n.TokPos, n.Tok)
		case *ast.BranchStmt:
			if n.Label == nil {
				turn(n.TokPos, n.Tok)
			}
		case *ast.UnaryExpr:
			if n.Op == token.NOT {
				at(n.OpPos, 1, "")
			}
		case *ast.BasicLit:
			if value, err := strconv.ParseInt(n.Value, 0, 62); err == nil && n.Kind == token.INT {
				at(n.Pos(), len(n.Value), strconv.FormatInt(value+1, 10))
			}
		case *ast.ExprStmt:
			at(n.Pos(), int(n.End()-n.Pos()), "")
		}
		return true
	})
	return found, nil
}

// isText tells a text from other operands, as far as the source alone tells.
func isText(x ast.Expr) bool {
	switch x := x.(type) {
	case *ast.BasicLit:
		return x.Kind == token.STRING
	case *ast.BinaryExpr:
		return x.Op == token.ADD && (isText(x.X) || isText(x.Y))
	}
	return false
}
