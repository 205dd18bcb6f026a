"""Pages served to a browser on this machine: what every page of the program's own needs, whatever it shows."""
