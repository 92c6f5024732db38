package main

// message is any line that comes in; type says which fields it has.
type message struct {
	Type string `json:"type"`

	Items    []item  `json:"-"`     // hello
	Lines    [][]int `json:"lines"` // hello
	OldMS    float64 `json:"old_ms"`
	SessionS float64 `json:"session_s"`

	Day   int     `json:"day"` // ask, forecast
	Now   float64 `json:"now"`
	LeftS float64 `json:"left_s"`
	First bool    `json:"first"`

	Keys []key `json:"keys"` // result

	At  float64 `json:"at"` // predict
	IDs []int   `json:"-"`

	TargetMS float64 `json:"target_ms"` // forecast
}

// item is a stroke, as hello lists them.
type item struct {
	ID      int     `json:"id"`
	Board   int     `json:"board"`
	Layer   int     `json:"layer"`
	Hand    int     `json:"hand"`
	Finger  int     `json:"finger"`
	Row     int     `json:"row"`
	Col     int     `json:"col"`
	Freq    float64 `json:"freq"`
	PSwitch float64 `json:"pswitch"`
	Other   *int    `json:"other"`
}

// key is a stroke that was typed.
type key struct {
	ID      int     `json:"i"`
	Prev    int     `json:"p"`
	MS      float64 `json:"ms"`
	OK      bool    `json:"ok"`
	Pressed int     `json:"pr"`
	Now     float64 `json:"now"`
}

type reply struct {
	Type string `json:"type"`
}

type exercise struct {
	Type  string `json:"type"`
	Items []int  `json:"items"`
	Block string `json:"block"`
}

type prediction struct {
	Type string    `json:"type"`
	MS   []float64 `json:"ms"`
	PErr []float64 `json:"p_err"`
}

type forecast struct {
	Type   string   `json:"type"`
	Lo     *float64 `json:"lo"`
	Median *float64 `json:"median"`
	Hi     *float64 `json:"hi"`
	Chance *float64 `json:"chance,omitempty"` // of getting there on this course
}
