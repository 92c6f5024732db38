// Underlay trains the layers of a small keyboard.
package main

func main() {}
