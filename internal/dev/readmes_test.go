package dev_test

import (
	"context"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/pages"
	"github.com/coverwright/coverwright/internal/dev/rules"

	"github.com/coverwright/coverwright/cost/job"
)

const root = "../.."

// documents reads every Markdown file of the repository, by its path.
func documents(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || filepath.Ext(path) != ".md" {
			return err
		}
		text, err := os.ReadFile(path)
		out[path] = string(text)
		return err
	}))
	require.Contains(t, out, filepath.Join(root, "README.md"))
	return out
}

// blocks gives the blocks of a language in a document.
func blocks(text, lang string) []string {
	var out []string
	for _, m := range regexp.MustCompile("(?ms)^```"+lang+"\n(.*?)^```").FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	return out
}

// The README is read in one sitting.
func TestReadmeIsShort(t *testing.T) {
	assert.LessOrEqual(t, strings.Count(documents(t)[filepath.Join(root, "README.md")], "\n"), 150)
}

// The first program runs as it stands, and prints what it says.
func TestFirstProgram(t *testing.T) {
	programs := blocks(documents(t)[filepath.Join(root, "README.md")], "go")
	require.Len(t, programs, 1)
	first := programs[0]
	file := filepath.Join(t.TempDir(), "main.go")
	require.NoError(t, os.WriteFile(file, []byte(first), 0o600))
	out, err := exec.Command("go", "run", file).CombinedOutput()
	require.NoError(t, err, "%s", out)
	said := regexp.MustCompile(`Println\(.*\) // (.*)`).FindStringSubmatch(first)
	require.Len(t, said, 2)
	assert.Equal(t, said[1]+"\n", string(out))
}

// Every job that a document shows builds as it stands, on top of the shop file that it
// shows before it.
func TestJobs(t *testing.T) {
	shown := map[string]int{}
	for path, text := range documents(t) {
		shop := job.Shop{}
		for _, b := range blocks(text, "json") {
			if strings.Contains(b, string(job.ShopSchema)) {
				var err error
				shop, err = job.ReadShop(strings.NewReader(b))
				require.NoError(t, err, "%s:\n%s", path, b)
				continue
			}
			o, err := shop.Read(context.Background(), strings.NewReader(b), job.Options{Effort: 0.001})
			require.NoError(t, err, "%s:\n%s", path, b)
			assert.NotEmpty(t, o.Cuts, path)
			shop = job.Shop{}
			shown[path]++
		}
	}
	assert.Positive(t, shown[filepath.Join(root, "README.md")])
	assert.Positive(t, shown[filepath.Join(root, "cost", "job", "README.md")])
}

// Links lead to files that are there, or to headings of the same document.
func TestLinks(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)\s]+)\)`)
	for path, text := range documents(t) {
		headings := map[string]bool{}
		for _, m := range regexp.MustCompile(`(?m)^#+ (.+)$`).FindAllStringSubmatch(text, -1) {
			name := regexp.MustCompile("[^a-z0-9 -]").ReplaceAllString(strings.ToLower(m[1]), "")
			headings[strings.ReplaceAll(name, " ", "-")] = true
		}
		for _, m := range link.FindAllStringSubmatch(text, -1) {
			file, heading, _ := strings.Cut(m[1], "#")
			switch {
			case strings.Contains(m[1], "://"):
			case file == "":
				assert.True(t, headings[heading], "%s: no heading for #%s", path, heading)
			default:
				_, err := os.Stat(filepath.Join(filepath.Dir(path), file))
				assert.NoError(t, err, path)
			}
		}
	}
}

// Packages, folders and Go names that documents speak of exist.
func TestNames(t *testing.T) {
	all, err := rules.Load()
	require.NoError(t, err)
	_, symbols, err := rules.Sources()
	require.NoError(t, err)
	words := rules.PublicNames(all, symbols)
	folder := regexp.MustCompile(`(?:^|[\s(])\./([a-z][a-z0-9/]*[a-z0-9])`)
	inside := regexp.MustCompile("`((?:unit|allowance|material|thread|foam|cost|internal|examples)(?:/[a-z0-9_-]+)*(?:/[A-Za-z0-9_-]+\\.[a-z0-9]+)?)`")
	for path, text := range documents(t) {
		for _, dead := range words.Dead(pages.ByHand(text)) { // the compiler and TestNamesInCommentsExist see to the rest
			t.Errorf("%s: %s is no name of the module", path, dead)
		}
		for _, re := range []*regexp.Regexp{folder, inside} {
			for _, m := range re.FindAllStringSubmatch(text, -1) {
				if strings.Contains(m[1], "PACKAGE") { // stands for any
					continue
				}
				_, err := os.Stat(filepath.Join(root, m[1]))
				if err != nil && re == folder { // of a command in the module of the programs
					_, err = os.Stat(filepath.Join(root, rules.Programs, m[1]))
				}
				assert.NoError(t, err, path)
			}
		}
	}
}

// The pipeline and the walks of DEVELOPERS.md name what is there.
func TestWalks(t *testing.T) {
	text := documents(t)[filepath.Join(root, "DEVELOPERS.md")]
	quoted := regexp.MustCompile("`([^`]+)`")
	stages := 0
	for _, line := range strings.Split(section(t, text, "The pipeline of cost/job"), "\n") {
		cells := strings.Split(line, "|")
		if len(cells) != 6 || !strings.Contains(cells[2], ".go`") {
			continue
		}
		stages++
		code := ""
		for _, m := range quoted.FindAllStringSubmatch(cells[2], -1) {
			file, err := os.ReadFile(filepath.Join(root, "cost", "job", m[1]))
			require.NoError(t, err)
			code += string(file)
		}
		for _, m := range quoted.FindAllStringSubmatch(cells[3], -1) {
			assert.Regexp(t, `(?m)^func (\([^)]*\) )?`+m[1]+`\(`, code, "%s is not in %s", m[1], cells[2])
		}
	}
	assert.Greater(t, stages, 9)

	_, symbols, err := rules.Sources()
	require.NoError(t, err)
	byName := map[string]map[string]bool{}
	for path, names := range symbols {
		byName[path[strings.LastIndexByte(path, '/')+1:]] = names
	}
	name := regexp.MustCompile(`^[A-Za-z]+(\.[A-Za-z]+)*$`)
	walks := section(t, text, "Two walks")
	for _, m := range quoted.FindAllStringSubmatch(walks, -1) {
		if !name.MatchString(m[1]) || strings.HasSuffix(m[1], ".go") {
			continue
		}
		pkg, rest, _ := strings.Cut(m[1], ".")
		assert.True(t, byName["job"][m[1]] || byName["workorder"][m[1]] || byName[pkg][rest], "%s of a walk is nowhere", m[1])
	}
	steps := regexp.MustCompile(`(?m)^\d+\. `)
	assert.LessOrEqual(t, len(steps.FindAllString(walks, -1)), 8+6, "walks grow no longer")
}

// section gives what stands under a heading of the second level.
func section(t *testing.T, text, heading string) string {
	t.Helper()
	_, rest, found := strings.Cut(text, "\n## "+heading+"\n")
	require.True(t, found, heading)
	rest, _, _ = strings.Cut(rest, "\n## ")
	return rest
}
