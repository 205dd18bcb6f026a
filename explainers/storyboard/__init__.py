"""How it is told, and when: steps in teaching order, and the timeline that alone holds seconds."""
