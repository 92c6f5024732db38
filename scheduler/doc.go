// Package scheduler estimates how well each stroke is known, decides what is
// worth practising now, and says how far the user is.
//
// It sees strokes as ids with features, and knows neither boards nor code.
package scheduler
