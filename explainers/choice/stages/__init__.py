"""How options are told: shown, tried one by one, kept or ruled out."""
