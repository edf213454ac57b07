package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// runs writes numbers in their order, those that follow each other as one: 1 to 4, 9.
func runs(ns []int) string {
	ns = slices.Compact(slices.Sorted(slices.Values(ns)))
	var out []string
	for i := 0; i < len(ns); {
		k := i
		for k+1 < len(ns) && ns[k+1] == ns[k]+1 {
			k++
		}
		switch {
		case k > i+1:
			out = append(out, fmt.Sprintf("%d to %d", ns[i], ns[k]))
		case k == i+1:
			out = append(out, strconv.Itoa(ns[i]), strconv.Itoa(ns[k]))
		default:
			out = append(out, strconv.Itoa(ns[i]))
		}
		i = k + 1
	}
	return strings.Join(out, ", ")
}

// together lists names, those that differ in one number as one: booth 1 to 20: seat;
// bench.
func together(names []string) string {
	var texts []string
	numbers := map[string][]int{}
	seen := map[string]bool{}
	for _, name := range names {
		stem, n, found := withoutNumber(name)
		if !found {
			stem = name
		}
		if !seen[stem] {
			seen[stem], texts = true, append(texts, stem)
		}
		if found {
			numbers[stem] = append(numbers[stem], n)
		}
	}
	apart := ", "
	for i, stem := range texts {
		if ns := numbers[stem]; len(ns) > 0 {
			texts[i] = strings.Replace(stem, "\x00", runs(ns), 1)
		}
		if strings.ContainsAny(texts[i], ",:") {
			apart = "; "
		}
	}
	return strings.Join(texts, apart)
}

// withoutNumber puts a zero byte in place of the first word of a name that is a number,
// if a word stands before it.
func withoutNumber(name string) (stem string, n int, found bool) {
	words := strings.Split(name, " ")
	for i, w := range words {
		digits := strings.TrimRight(w, ",:")
		n, err := strconv.Atoi(digits)
		if i == 0 || err != nil || strconv.Itoa(n) != digits || strings.Contains(name, "\x00") {
			continue
		}
		words[i] = "\x00" + w[len(digits):]
		return strings.Join(words, " "), n, true
	}
	return "", 0, false
}
