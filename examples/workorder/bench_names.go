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

// together lists names, those that differ in a number at their end as one: booth 1 to
// 20, bench.
func together(names []string) string {
	var stems []string
	numbers := map[string][]int{}
	for _, name := range names {
		stem, word := name, name[strings.LastIndexByte(name, ' ')+1:]
		n, err := strconv.Atoi(word)
		if err == nil && len(word) < len(name) && strconv.Itoa(n) == word {
			stem = strings.TrimSuffix(name, word)
		}
		if !slices.Contains(stems, stem) {
			stems = append(stems, stem)
		}
		if stem != name {
			numbers[stem] = append(numbers[stem], n)
		}
	}
	for i, stem := range stems {
		if ns := numbers[stem]; len(ns) > 0 {
			stems[i] = stem + runs(ns)
		}
	}
	return strings.Join(stems, ", ")
}
