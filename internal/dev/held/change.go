package main

import (
	"go/constant"
	"go/token"
	"strings"
)

// The two ways in which a figure is changed.
const (
	byFive  = "5 %"
	byDigit = "last digit"
)

// change is one thing that is made different, and then run.
type change struct {
	id     int
	src    *source
	figure *figure // nil for code
	mutant *mutant // nil for a figure
	second int     // which of the things that can be done to the mutant
	what   string  // 5 %, last digit; for code, where and what is done to it
	built  bool    // by a text of its own, not by a switch
}

func (c change) String() string {
	if c.figure == nil {
		return c.what
	}
	return c.figure.String() + ", " + c.what
}

// changed gives a literal made larger by 5 % or by one in its last digit, or as
// it is.
func changed(literal, how string) constant.Value {
	kind := token.FLOAT
	if !strings.ContainsAny(literal, ".eEpP") || strings.HasPrefix(literal, "0x") {
		kind = token.INT
	}
	v := constant.MakeFromLiteral(literal, kind, 0)
	switch how {
	case byFive:
		return constant.BinaryOp(constant.ToFloat(v), token.MUL, constant.MakeFromLiteral("1.05", token.FLOAT, 0))
	case byDigit:
		return constant.BinaryOp(constant.ToFloat(v), token.ADD, constant.ToFloat(lastDigit(literal)))
	}
	return v
}

// lastDigit is one in the last digit as it is written: 0.01 of 2.54, 1000 of
// 25e3.
func lastDigit(literal string) constant.Value {
	literal = strings.ReplaceAll(literal, "_", "")
	if strings.HasPrefix(literal, "0x") {
		return constant.MakeInt64(1)
	}
	mantissa, exponent := literal, ""
	if i := strings.IndexAny(literal, "eE"); i >= 0 {
		mantissa, exponent = literal[:i], literal[i:]
	}
	mantissa = strings.TrimSuffix(mantissa, ".")
	var one []byte
	for i, c := range []byte(mantissa) {
		switch {
		case c == '.':
			one = append(one, c)
		case i == len(mantissa)-1:
			one = append(one, '1')
		default:
			one = append(one, '0')
		}
	}
	text := strings.TrimLeft(string(one), "0")
	if strings.HasPrefix(text, ".") {
		text = "0" + text
	}
	return constant.MakeFromLiteral(text+exponent, token.FLOAT, 0)
}
