// The door of `search`: the cheapest sequence of tests and repairs of a plain table, with a proven bound.
