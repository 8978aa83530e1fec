"""What changed between two builds."""
