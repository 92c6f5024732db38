// Package learners simulates typists who learn, forget and slip, to try the
// scheduler on and to make demonstration histories.
//
// Two of them differ in what they hold learning to be. [Gradual] has a strength
// for each stroke that grows with every try and fades with time; its errors
// and latencies are smooth in it. [Searcher] knows where a symbol is or does not,
// and looks for it then; it forgets by what it learns besides, and its hands
// learn movements between positions, not symbols. What helps both is likely to help people.
//
// Minutes and days of a simulation are worth nothing for people; ratios between two
// ways to practise may be.
package learners
