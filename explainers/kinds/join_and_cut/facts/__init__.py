"""What is true of a piece that is joined on or cut out: a module a kind of fact, with its proof and its words."""
