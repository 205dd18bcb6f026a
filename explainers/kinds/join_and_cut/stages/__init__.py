"""How a question of joining and cutting is told, stage by stage."""
