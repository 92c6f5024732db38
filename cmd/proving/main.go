// Proving drives the scheduler over JSON lines, for simulations and research.
package main

func main() {}
