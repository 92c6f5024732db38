package main

func (p *practice) plainly() error { return nil }
