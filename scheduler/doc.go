// Package scheduler estimates how well each stroke is known, decides what is
// worth practising now, and says how far the user is.
//
// It sees strokes as ids with features, and knows neither boards nor code. All
// it learns comes through [Scheduler.Observe], one graded try at a time, so
// that a journal told again gives the same skill; [Scheduler.Snapshot] is a cache of it.
//
// # Reading the source
//
//   - scheduler.go: strokes, and what is kept of them.
//   - observe.go, clock.go, context.go: what a try teaches; sessions; circumstances that are no skill.
//   - side.go, filter.go, priors.go: the model, an additive one for ln ms and for the logit of a
//     slip, corrected by a filter with diagonal covariance whose residuals are clipped.
//   - level.go, pace.go, state.go, why.go: what is read off it.
//   - change.go: what carries over when a board is changed.
//   - plan.go, blocks.go, upkeep.go: a session and its blocks.
//   - exercise.go, worth.go, weave.go, lines.go, pool.go: what to type next: what practice saves
//     tomorrow in the user's work, for the time it takes, woven into the user's code.
//   - forecast.go, curves.go: when a speed is reached, by two courses of practice.
//
// FIGURES.md has what it achieves with simulated typists, and how that was measured.
package scheduler
