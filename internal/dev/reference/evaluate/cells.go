package evaluate

// cells names, by package, the quantities that are read out of a cell of one of
// our tables and not computed, or no more than set off from a number of the row
// by it, or fitted to the row itself. A row of them that a document prints shows that
// we copied well; one that no document prints shows nothing. Every other
// quantity answers to the numbers of its row, which a test holds.
var cells = map[string][]string{
	"allowance": {"finish_allowance", "seam_allowance", "rule_allowance", "bias_chart", "bias_factor", "fullness", "paper_a4"},
	"material": {
		"width_chart", "furniture_yardage", "part_share", "natural_shape", "usual_area", "cutting_yield", "cutting_yields", "thickness_range",
	},
	"findings": {
		"finding_length", "finding_count", "finding_share", "finding_mass", "finding_area", "finding_volume",
		"tack_length", "tacks_a_pound", "tack_use", "burlap_use", "burlap_classes",
	},
	"thread": {
		"table", "spec_strength", "spec_yield", "spec_yarn", "density", "density_advice", "back_tack", "spacing", "needles",
		"needles_numbered", "needle_advice", "needle_view", "fibre", "loop_factor", "back_tack_for", "weather_loss", "influence", "model_fit",
	},
	"caution": {"caution_from", "caution_figures", "caution_edition", "caution_rule", "caution_statuses"},
	"foam": {
		"firmness_figure", "firmness_span", "density_figure", "density_span", "index_grades", "plate_diameter",
		"one_inch_least", "densest", "foam_densities", "firmness_term", "test_method", "contact_discs", "posture_change", "rigid_seat", "support_range",
		"prediction_error", "service_class", "service_class_loss", "batting_loft", "sheet_size", "hysteresis_figure",
		"ifd_tolerance", "slab_length_limits", "slab_width_limits", "slab_thickness_limits", "roll_limits", "convoluted_limits",
		"bun_height_limits",
	},
	"cost": {"currency_digits", "regime", "cash_step", "bench_total"},
}
