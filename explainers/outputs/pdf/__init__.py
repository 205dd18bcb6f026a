"""Documents to show and to print: the deck, handouts, sheets."""
