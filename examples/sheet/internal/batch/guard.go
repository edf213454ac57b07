package batch

import "strings"

// guard keeps a text from being run as a formula when the file is opened in a
// spreadsheet. Numbers stay as they are.
func guard(s string) string {
	t := strings.TrimLeft(s, " \t\r\n\u00a0\ufeff")
	if t == "" || !strings.ContainsRune("=+-@|%＝＋－＠", []rune(t)[0]) && !strings.HasPrefix(s, "\t") && !strings.HasPrefix(s, "\r") {
		return s
	}
	if isNumber(strings.TrimSpace(s)) {
		return s
	}
	return "'" + s
}

// unguard takes off the apostrophe that guard put on.
func unguard(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && guard(rest) == s {
		return rest
	}
	return s
}
