package table

var aboutFunctions = []Function{
	{
		Method: "apiLevel", Group: "About", Result: Number,
		Help:    "Level of the function table. A workbook made for a higher level than this one needs a newer add-in.",
		Example: []any{},
		Bad:     []Bad{{Value, []any{1.0}}},
		call:    func(*args) (Result, error) { return number(Level), nil },
	},
	{
		Method: "versionText", Group: "About", Result: Text,
		Help:    "Name and level of the function table.",
		Example: []any{},
		Bad:     []Bad{{Value, []any{1.0}}},
		call:    func(*args) (Result, error) { return text(Version), nil },
	},
	whyFunction,
}
