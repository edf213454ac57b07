package addin

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

// Names of the generated files.
const (
	idlFile       = "XShop.idl"
	rdbFile       = "XShop.rdb"
	registryFile  = "CalcAddIns.xcu"
	shimFile      = "shop_addin.py"
	manifestFile  = "manifest.xml"
	describeFile  = "description.xml"
	referenceFile = "FUNCTIONS.md"
)

// Generate gives every generated file by its name.
func Generate() map[string][]byte {
	return map[string][]byte{
		idlFile:       []byte(idl()),
		registryFile:  []byte(registry()),
		shimFile:      []byte(shim()),
		manifestFile:  []byte(manifest()),
		describeFile:  []byte(description()),
		referenceFile: []byte(Reference()),
	}
}

const note = "Generated from the function table; do not edit."

// idl declares one method for each function. A cell may hold a number, a text
// or nothing, or be a range of them, so every argument is any. A result is rows
// of cells, also where it is one cell: an any cannot bring a range to the sheet.
func idl() string {
	var b strings.Builder
	b.WriteString("// " + note + "\n\nmodule org { module coverwright { module sheet {\n\ninterface XShop\n{\n")
	for i := range table.Functions() {
		f := &table.Functions()[i]
		args := make([]string, len(f.Args))
		for k, a := range f.Args {
			args[k] = "[in] any " + argument(a)
		}
		fmt.Fprintf(&b, "    sequence< sequence< any > > %s( %s );\n", f.Method, strings.Join(args, ", "))
	}
	b.WriteString("};\n\n}; }; };\n")
	return b.String()
}

// argument gives the name of an argument where underscores are not allowed.
func argument(a table.Arg) string {
	parts := strings.Split(a.Name, "_")
	for i := 1; i < len(parts); i++ {
		parts[i] = strings.ToUpper(parts[i][:1]) + parts[i][1:]
	}
	return strings.Join(parts, "")
}

func argHelp(a table.Arg) string {
	switch unit := a.UnitName(); {
	case a.Sizes > 0:
		a.Help += "; sizes in " + unit
	case unit != "":
		a.Help += ", in " + unit
	}
	if a.Optional() {
		return a.Help + "; when left out: " + a.Default
	}
	return a.Help
}

// help gives what a function does; of a twin, that it is one.
func help(f *table.Function) string {
	if f.Of != "" {
		return "Metric twin of " + strings.ToUpper(f.Of) + ". " + f.Help
	}
	return f.Help
}

// registry holds what the function wizard shows.
func registry() string {
	var b strings.Builder
	b.WriteString(xml.Header)
	b.WriteString("<!-- " + note + " -->\n")
	b.WriteString(`<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="CalcAddIns" oor:package="org.openoffice.Office">
<node oor:name="AddInInfo">
<node oor:name="` + table.Prefix + `" oor:op="replace">
<node oor:name="AddInFunctions">
`)
	prop := func(name, value string) {
		fmt.Fprintf(&b, "<prop oor:name=%q><value>", name)
		_ = xml.EscapeText(&b, []byte(value)) //nolint:errcheck // a strings.Builder does not fail
		b.WriteString("</value></prop>\n")
	}
	local := func(name, value string) {
		fmt.Fprintf(&b, "<prop oor:name=%q><value xml:lang=\"en\">", name)
		_ = xml.EscapeText(&b, []byte(value)) //nolint:errcheck // a strings.Builder does not fail
		b.WriteString("</value></prop>\n")
	}
	for i := range table.Functions() {
		f := &table.Functions()[i]
		fmt.Fprintf(&b, "<node oor:name=%q oor:op=\"replace\">\n", f.Method)
		local("DisplayName", table.Prefix+"."+f.Name())
		local("Description", help(f))
		prop("Category", "Add-In")
		b.WriteString("<node oor:name=\"Parameters\">\n")
		for _, a := range f.Args {
			fmt.Fprintf(&b, "<node oor:name=%q oor:op=\"replace\">\n", argument(a))
			local("DisplayName", a.Name)
			local("Description", argHelp(a))
			b.WriteString("</node>\n")
		}
		b.WriteString("</node>\n</node>\n")
	}
	b.WriteString("</node>\n</node>\n</node>\n</oor:component-data>\n")
	return b.String()
}

func manifest() string {
	return xml.Header + `<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">
<manifest:file-entry manifest:full-path="XShop.rdb" manifest:media-type="application/vnd.sun.star.uno-typelibrary;type=RDB"/>
<manifest:file-entry manifest:full-path="shop_addin.py" manifest:media-type="application/vnd.sun.star.uno-component;type=Python"/>
<manifest:file-entry manifest:full-path="CalcAddIns.xcu" manifest:media-type="application/vnd.sun.star.configuration-data"/>
</manifest:manifest>
`
}

func description() string {
	return xml.Header + `<description xmlns="http://openoffice.org/extensions/description/2006" xmlns:d="http://openoffice.org/extensions/description/2006">
<identifier value="org.coverwright.sheet.shop"/>
<version value="` + strconv.Itoa(table.Level) + `.0"/>
<display-name><name lang="en">Coverwright shop functions</name></display-name>
<dependencies><OpenOffice.org-minimal-version value="4.0" d:name="LibreOffice 7 or later"/></dependencies>
</description>
`
}

// shim gives the Python component: the fixed part and one method for each
// function.
func shim() string {
	var methods, names strings.Builder
	for i := range table.Functions() {
		f := &table.Functions()[i]
		args := make([]string, len(f.Args))
		for k, a := range f.Args {
			args[k] = argument(a)
		}
		list := strings.Join(args, ", ")
		tuple := "(" + list
		if len(args) == 1 {
			tuple += ","
		}
		tuple += ")"
		sig := "self"
		if list != "" {
			sig += ", " + list
		}
		fmt.Fprintf(&methods, "\n    def %s(%s):\n        return cells(%q, %s)\n", f.Method, sig, f.Name(), tuple)
		described := [][2]string{}
		for _, a := range f.Args {
			described = append(described, [2]string{a.Name, argHelp(a)})
		}
		fmt.Fprintf(&names, "    %s: (%s, %s),\n", pyText(f.Method), pyText(help(f)), pyPairs(described))
	}
	return strings.NewReplacer("{NOTE}", note, "{LEVEL}", strconv.Itoa(table.Level), "{PREFIX}", table.Prefix,
		"{ROWS}", strconv.Itoa(table.MostRows), "{COLUMNS}", strconv.Itoa(table.MostColumns),
		"{CODES}", pyCodes(), "{NAMES}", names.String(), "{METHODS}", methods.String()).Replace(shimText)
}

func pyText(s string) string {
	b, err := json.Marshal(s) // JSON strings are Python strings
	if err != nil {
		return `""`
	}
	return string(b)
}

func pyPairs(ps [][2]string) string {
	items := make([]string, len(ps))
	for i, p := range ps {
		items[i] = "(" + pyText(p[0]) + ", " + pyText(p[1]) + "), "
	}
	return "(" + strings.Join(items, "") + ")"
}

func pyCodes() string {
	var items []string
	for _, c := range append(table.Codes(), table.Name) {
		items = append(items, fmt.Sprintf("%q: %d", string(c), c.Number()))
	}
	return "{" + strings.Join(items, ", ") + "}"
}
