package evaluate

const (
	geometry = "the shape is geometry; what is added to it is a habit of the trade, for which no text is cited"
	cushion  = "worked by hand; seams of half an inch, a zip round the corners and foam larger than its cover are habits of the trade"
	prices   = "worked by hand from a job file; amounts by the usual figures of findings, prices invented"
	example  = "a worked example of bookkeeping, repeated from teaching without a text that can be cited"
)

// whys says, by package and quantity, why rows rest on nothing outside where
// there is more to say than their status does: a chart without an author, an
// estimate of time, a default of ours.
var whys = map[string]map[string]string{
	"allowance": {
		"bias_chart":          "a chart that goes round the trade without an author",
		"bias_factor":         "drawn from that chart: what it gives of the area",
		"bolster_body":        geometry,
		"bolster_end":         geometry,
		"bolster_girth":       geometry,
		"boxed_perimeter":     geometry,
		"boxing_length":       geometry,
		"round_boxing":        geometry,
		"t_cushion_plate":     geometry,
		"waterfall_main":      geometry,
		"waterfall_side":      geometry,
		"welt_width":          "the girth of the cord is geometry; two seams beside it are the habit of the trade",
		"welt_length":         "the joins are geometry; one diagonal join for each length of goods is a habit",
		"seam_verdict":        "limits of ease are recalled; no test of them was found",
		"leather_stretch":     "a rule of thumb of the trade; the stretch of a skin is not measured",
		"vinyl_stretch":       "a rule of thumb of the trade; the stretch of the goods is not measured",
		"kick_pleat_panel":    "sizes of one way of making a skirt, of no cited text",
		"corner_pleat_length": "sizes of one way of making a skirt, of no cited text",
	},
	"material": {
		"width_chart":       "a width chart that goes round the trade without an author; equal area is beside it",
		"patterned":         "a chart of extra for repeats that goes round the trade without an author; a layout is beside it",
		"natural_shape":     "our drawing of a hide, fitted to one printed width and length: it cannot differ from them",
		"usual_area":        "tanners and merchants say so, each a little otherwise",
		"cutting_yield":     "cutters say so; what a hide yields depends on its faults",
		"gross_area":        "shares of waste are habits of cutters",
		"suffices":          "the usual margin is a habit of the trade",
		"margin":            "the usual margin is a habit of the trade",
		"order_with_margin": "the usual margin is a habit of the trade",
	},
	"findings": {
		"finding_use":    "steps of sellers and the shares of waste are habits",
		"finding_pieces": "shares of waste are habits",
	},
	"thread": {
		"find":             "trade numbers of threads, of no standard",
		"finished_count":   "ten denier to the trade number is a habit of the trade, of no standard",
		"needles":          "makers and shops advise it, each a little otherwise",
		"needle_view":      "views of shops that differ from the table, shown beside it",
		"needles_numbered": "numbers of needles of two systems side by side, of no cited text",
		"recommend":        "our choice from the tables of thread and needle; no text chooses so",
		"seam_thread":      "our choice from the tables of thread and needle; no text chooses so",
		"consumption":      "loop formulas of the trade; no cited text prints their coefficients",
		"seam_strength":    "a formula of the trade with its loop factors; no test of seams was cited for it",
	},
	"foam": {
		"layer_series":           "layers as springs in series; no test of a stack is cited",
		"layer_sink":             "layers as springs in series, by our curve; no test of a stack is cited",
		"curve_force_ratio":      "our curve between two forces of a test; no other curve was measured against it",
		"curve_strain":           "our curve between two forces of a test; no other curve was measured against it",
		"sitting_strain":         "our curve, with a share of the weight and a contact that are recalled",
		"firmness_span":          "drawn from figures of the trade for the use",
		"density_span":           "drawn from figures of the trade for the use",
		"hardness_estimate":      "drawn from our curve; no factor between the two tests was found in print",
		"cellular_modulus":       "a model of cellular solids with constants recalled",
		"cellular_plateau":       "a model of cellular solids with constants recalled",
		"cellular_densification": "a model of cellular solids with constants recalled",
		"height_loss_verdict":    "where old foam is called poor is a habit of the trade",
	},
	"cost": {
		"bench_total":     "times of a task are what shops say, from no one shop; a shop puts its own in their place",
		"bench_time":      "times of a task are what shops say, from no one shop; a shop puts its own in their place",
		"estimate_range":  "classes of estimates by habit; the range of a shop is its own",
		"overhead_rate":   example,
		"overhead_budget": example,
		"overhead_pool":   example,
		"over_applied":    example,
		"job_cost":        example,
		"unit_cost":       example,
		"add_up":          example,
		"break_even":      example,
		"target_price":    example,
		"loaded_rate":     example,
		"learning":        example,
		"learning_rate":   example,
		"learning_unit":   example,
		"standard_time":   example,
	},
	"job": {
		"cushion_part":       cushion,
		"cushion_joins":      cushion,
		"cushion_zip":        cushion,
		"cushion_sewn":       cushion,
		"cushion_net":        cushion,
		"cushion_need":       cushion,
		"cushion_foam":       cushion,
		"job_finding_steps":  prices,
		"job_finding_charge": prices,
		"job_finding_sum":    prices,
	},
}
