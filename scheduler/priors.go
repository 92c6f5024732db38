package scheduler

import "math"

// priors are the means and variances that a side of the model starts from, and
// how fast its terms may drift.
type priors struct {
	board           [2]term // level of a board
	layer           term    // what a layer adds; the mean not for a base layer
	finger          term    // what a finger of a hand adds
	row             term    // what a row adds
	own             term    // what a stroke has of its own
	practice        term    // slope on ln(1 + tries)
	practiceOfLayer term    // what a layer adds to that slope; the mean as above
	forget          term    // slope on ln(1 + days away)
	form            term    // how the day differs
	context         [contexts]term

	lasting        float64 // share of a session's form that stays
	perTry, perDay float64 // drift of a stroke's own term, variance
	perFirst       float64 // more of it for the first tries
	perDayYoung    float64 // and for the days between them
	perDay2        float64 // by the square of the days away
	perTryLayer    float64 // drift of a layer's, variance
	maxItem        float64 // caps of these variances
	maxLayer       float64
}

// latencyPriors are for ln ms.
//
// A standard board starts from 280 ms a stroke: the average non-secretary
// typist of the Keystroke-Level Model (Card, Moran & Newell 1980), between the
// mean of Dhakal et al. (2018), 239 ms, and random letters. A board being learned
// starts near random letters, 500 ms. The slope of practice is near what
// people's records show: .107 over all keys, up to .18 for new ones (Killourhy & Maxion 2009,
// own computation). Forgetting is presumed to be nil until it is seen.
func latencyPriors() priors {
	return priors{
		board:           [2]term{{math.Log(520), .15}, {math.Log(280), .15}},
		layer:           term{.5, .10},
		finger:          term{0, .01},
		row:             term{0, .01},
		own:             term{0, .05},
		practice:        term{-.10, .003},
		practiceOfLayer: term{-.06, .001},
		forget:          term{0, .006},
		form:            term{0, .006},
		context: [contexts]term{
			afterSwitch: {.2, .02}, afterSameFinger: {.1, .01}, atStart: {.3, .05},
			warmingUp: {.12, .01}, onNewBoard: {.05, .005}, afterSlip: {.1, .01}, onReturn: {.1, .01},
		},
		lasting: .6, perTry: .000003, perFirst: .0004, perDay: .00015, perDayYoung: .0008, perDay2: .000005, perTryLayer: 1e-6, maxItem: 1, maxLayer: .3,
	}
}

// slipPriors are for the logit of the chance of a slip.
func slipPriors() priors {
	return priors{
		board:           [2]term{{-2.6, .5}, {-3.8, .5}},
		layer:           term{1, .25},
		finger:          term{0, .05},
		row:             term{0, .03},
		own:             term{0, .3},
		practice:        term{-.35, .02},
		practiceOfLayer: term{-.05, .005},
		forget:          term{.1, .02},
		form:            term{0, .03},
		context: [contexts]term{
			afterSwitch: {.1, .02}, afterSameFinger: {.05, .01}, atStart: {0, .02},
			warmingUp: {.05, .01}, onNewBoard: {.05, .01}, afterSlip: {.1, .02}, onReturn: {.1, .02},
		},
		lasting: .6, perTry: .0015, perDay: .006, maxItem: 3, maxLayer: 3,
	}
}
