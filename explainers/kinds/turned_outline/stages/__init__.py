"""How a question of the turned outline is told, stage by stage."""
