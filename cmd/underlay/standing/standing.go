package standing

import (
	"time"

	"underlay/cmd/underlay/course"
	"underlay/drills/board"
	"underlay/scheduler"
)

// Model is what is asked of the skill model; *scheduler.Scheduler is one.
type Model interface {
	Level(id int, at time.Time) scheduler.Level
	State(id int, at time.Time) scheduler.State
	Pace(board int, at time.Time) scheduler.Point
	PaceOf(at time.Time, in func(id int) bool) scheduler.Point
	Expect(id int, at time.Time) scheduler.Point
	Course(board int) []scheduler.Point
	Before(board int) (otherLayer, sameFinger float64)
}

// Stroke is one stroke of a board. Its id in the model is its index.
type Stroke struct {
	scheduler.Stroke              // features, among them the share of the user's mix
	Symbol           board.Symbol // what it produces
	Keys             board.Stroke // how it is typed
}

// Follow says how often one stroke comes right after another.
type Follow = course.Follow

// Input is what a standing is worked out from.
type Input struct {
	Now     time.Time
	Boards  []*board.Board   // the one being learned, and the other one if there is one
	Strokes []Stroke         // by id, of all boards
	Follows []Follow         // what follows what on the board being learned
	Model   Model            // after it has learned from the whole journal
	Tally   *Tally           // of the whole journal
	Renamed []course.Renamed // names that boards had before
}

// Standing is the answer to "where do I stand?".
type Standing struct {
	At        time.Time `json:"at"`
	Invented  bool      `json:"invented,omitempty"` // a simulated typist practised, or somebody beside one
	Boards    []Side    `json:"boards"`             // the one being learned first
	Readiness Readiness `json:"readiness"`
	HoldsBack HoldsBack `json:"holds_back"`
	Days      []Day     `json:"days"` // of practice, earliest first, the boards of a day apart
	Slips     Slips     `json:"slips"`
	Moves     Moves     `json:"moves"`
	Upkeep    *Upkeep   `json:"upkeep,omitempty"` // with two boards
	Notes     []string  `json:"notes,omitempty"`  // what is to be known about the figures
}

// Side is one board and how the user stands on it.
type Side struct {
	Name    string `json:"name"`
	Title   string `json:"title"`
	Learned bool   `json:"learned"` // being learned; else the other board

	Known        bool    `json:"known"`                   // there is a try on it
	Timed        int     `json:"timed_strokes"`           // right, unaided tries whose time is known; without any there is no speed
	LatencyMS    Range   `json:"latency_ms,omitzero"`     // expected, a stroke of the user's mix, repair included
	CharsAMinute Range   `json:"chars_a_minute,omitzero"` // the same as speed; every symbol of the mix counts as a character
	Sessions     int     `json:"practised_sessions"`      // with this board in them
	Minutes      float64 `json:"minutes"`
	Tries        int     `json:"tries"`

	States  States   `json:"states"`
	Strokes []InHand `json:"strokes"` // every stroke that is drilled, in the board's order
}

// States counts the strokes of a board by their state.
type States struct {
	Unmet    int `json:"unmet"`
	Building int `json:"building"`
	Steady   int `json:"steady"`
	Fading   int `json:"fading"`
	// SteadyUse is the share of the user's strokes that the steady ones make up, 0 to 1.
	SteadyUse float64 `json:"steady_share_of_use"`
}

// InHand is how well one stroke is in the hand.
type InHand struct {
	Symbol    board.Symbol   `json:"symbol"`
	Stroke    string         `json:"stroke"` // as the journal names it
	Position  board.Position `json:"-"`      // of the key that is pressed last
	Layer     string         `json:"layer"`
	Level     int            `json:"level"`
	State     string         `json:"state"`
	PerMille  float64        `json:"per_mille"` // share of the user's strokes
	Tries     int            `json:"tries"`
	Timed     int            `json:"timed_tries"` // right and unaided, with a time
	Last      time.Time      `json:"last,omitzero"`
	LatencyMS Range          `json:"latency_ms,omitzero"` // median, warmed up
	ErrShare  float64        `json:"error_share"`         // expected share of slips; 0 before the first try
	// NeedTries is how many more timed tries the latency needs before it
	// means something; 0 where it does.
	NeedTries int `json:"need_tries,omitempty"`
	// CostMS is what it costs more than a quick stroke, ms per 1,000 characters.
	CostMS Range `json:"cost_ms_per_1000,omitzero"`
}

// Readiness is the expected speed on the board being learned as a share of
// the speed on the other, by the model and by equal probe lines.
type Readiness struct {
	Known bool   `json:"known"`
	Needs string `json:"needs,omitempty"` // what is missing where it is not known

	Against string `json:"against"` // the other board's name, or the base layer
	Share   Range  `json:"share"`   // 1: as fast as the other

	// Since is the day from which on the board being learned has been the
	// faster one, by the expected times, which are means; empty where it is not.
	Since string `json:"faster_since,omitempty"`

	Probe    *Probe `json:"probe,omitempty"`
	Disagree bool   `json:"disagree"` // model and probes tell different things; both are to be shown

	Outlook []Outlook `json:"outlook"` // from ten practised sessions on
	// OutlookNeeds is how many more practised sessions an outlook needs.
	OutlookNeeds int `json:"outlook_needs_sessions,omitempty"`
}

// Probe compares lines that were typed unaided on both boards.
type Probe struct {
	Lines     int      `json:"lines"`      // typed on both boards
	LatencyMS [2]Range `json:"latency_ms"` // a stroke of these lines, repair included: learned, other
	Share     Range    `json:"share"`
}

// Outlook is the chance to reach a share of the other board's speed on the
// course of the sessions so far, and after how many more practised sessions.
type Outlook struct {
	Share   float64 `json:"share"`   // to be reached
	Reached bool    `json:"reached"` // already
	Chance  float64 `json:"chance"`  // to reach it at all on this course, 0 to 1
	// Lo to Hi is the range of practised sessions from now on, four times of
	// five; -1: not on this course.
	Lo     int `json:"sessions_lo"`
	Median int `json:"sessions_median"`
	Hi     int `json:"sessions_hi"`
}

// HoldsBack ranks what costs time on the board being learned: what strokes take,
// slips and their repair included, more than a quick stroke of the user's does, in ms
// per 1,000 characters of their mix.
type HoldsBack struct {
	Against string  `json:"against"`  // the board of the quick strokes
	QuickMS float64 `json:"quick_ms"` // a quarter of the mix, typed on that board, takes no longer
	TotalMS Range   `json:"total_ms"` // per 1,000 characters
	Strokes []Cost  `json:"strokes"`  // most expensive first
	Layers  []Cost  `json:"layers"`   // all of them
	Fingers []Cost  `json:"fingers"`  // all of them
	Kinds   []Cost  `json:"kinds"`    // of slip
	Needs   string  `json:"needs,omitempty"`
}

// Cost is what one thing costs.
type Cost struct {
	Name     string  `json:"name"`              // symbol, layer, finger or kind of slip
	Stroke   string  `json:"stroke,omitempty"`  // of a symbol
	PerMille float64 `json:"per_mille"`         // share of the user's strokes
	MS       Range   `json:"ms_per_1000"`       // more than quick strokes, per 1,000 characters
	SlowMS   float64 `json:"slow_ms_per_1000"`  // part of it: latency
	SlipsMS  float64 `json:"slips_ms_per_1000"` // part of it: slips and their repair
	// ExpectedMS is what one stroke takes, slips included; OtherMS the same of the symbol
	// on the other board, 0 where that is not known. Kinds of slips have neither.
	ExpectedMS float64 `json:"expected_ms,omitempty"`
	OtherMS    float64 `json:"other_board_ms,omitempty"`

	Tries int  `json:"tries"`
	Timed int  `json:"timed_tries"`
	Sure  Sure `json:"sure"`
}

// Sure says how sure a figure is.
type Sure string

const (
	IsSure   Sure = "sure"    // the range lies on one side of zero, and is narrow
	IsLikely Sure = "likely"  // the range lies on one side of zero
	IsUnsure Sure = "unsure"  // it may as well be nothing
	TooFew   Sure = "too few" // too few tries to say
)

// Day is one day's practice on one board.
type Day struct {
	Date    string  `json:"date"` // 2006-01-02
	Board   string  `json:"board"`
	Learned bool    `json:"learned"`
	Minutes float64 `json:"minutes"`
	Strokes int     `json:"strokes"`
	Slips   int     `json:"slips"`
	// LatencyMS is the expected time a stroke of the user's mix at the end
	// of the day, by the model; drills of one day are no measure of another's.
	LatencyMS   Range   `json:"latency_ms"`
	ErrShare    float64 `json:"error_share"`
	SteadyShare float64 `json:"steady_share"` // of the strokes of the board

	// Latencies of the day's right, unaided strokes: median.
	MedianMS float64 `json:"median_ms"`
	Timed    int     `json:"timed_strokes"` // that it is of
	// First are the day's first meetings of strokes that had been met before:
	// what stayed overnight. They are not among MedianMS.
	First      int     `json:"first_meetings"`
	FirstMS    float64 `json:"first_median_ms"`
	FirstSlips int     `json:"first_slips"`

	Gap     int  `json:"gap_days"`      // days without practice on the board before this one
	Changed bool `json:"board_changed"` // the board's content is another one from this day on
}

// Slips counts slips by kind on the board being learned.
type Slips struct {
	Total  int         `json:"total"`                 // ever
	Latest int         `json:"latest"`                // the latest ones, at most 300, that the kinds are of
	Kinds  []SlipCount `json:"kinds"`                 // most frequent first
	Needs  int         `json:"needs_slips,omitempty"` // how many more before shares mean something
}

// SlipCount is one kind of slip.
type SlipCount struct {
	Kind  string         `json:"kind"`
	Count int            `json:"count"`
	Share Range          `json:"share"`
	Most  []board.Symbol `json:"most"` // the symbols it happened with most, at most three
}

// Moves is advice on moving symbols among the board's layer positions.
type Moves struct {
	Known    bool    `json:"known"`
	Needs    string  `json:"needs,omitempty"`
	LeaveIt  bool    `json:"leave_it"`            // no move is worth it
	Pairs    int     `json:"pairs"`               // how many swaps and moves were looked at
	CostMS   float64 `json:"cost_ms_per_1000"`    // of all strokes of the board as it is, once settled
	Found    int     `json:"found"`               // moves worth it
	Advice   []Move  `json:"advice"`              // best first; each is judged alone
	DailyUse int     `json:"assumed_chars_a_day"` // of typing at work, for PaysAfterDays
}

// Move is one swap of what two positions of layers give, or a move to a free
// position. Symbols that need Shift or AltGraph besides move along.
type Move struct {
	Symbol  board.Symbol `json:"symbol"`
	Layer   string       `json:"layer"`
	From    string       `json:"position"`       // r2c3
	With    board.Symbol `json:"with,omitempty"` // what is there now; empty: free
	ToLayer string       `json:"to_layer"`
	To      string       `json:"to_position"`

	SavesMS        Range   `json:"saves_ms_per_1000"` // characters, once settled
	SavesShare     float64 `json:"saves_share"`       // of the whole cost, 0 to 1
	RelearnStrokes int     `json:"relearn_strokes"`   // of each symbol that moves
	RelearnMinutes float64 `json:"relearn_minutes"`   // of practice
	PaysAfterDays  float64 `json:"pays_after_days"`   // of work, at the assumed number of characters a day
}

// Upkeep says how the other board does against its own first level.
type Upkeep struct {
	Board string `json:"board"`
	Known bool   `json:"known"`
	Needs string `json:"needs,omitempty"`
	// Lag is how much slower it is than at first, as a share: .04 is 4 % slower.
	Lag       Range `json:"lag"`
	LatencyMS Range `json:"latency_ms,omitzero"` // expected, a stroke of the mix
	Fades     bool  `json:"fades"`               // the lag is more than its noise and more than 4 %
	Days      int   `json:"days"`                // with practice on it
}
