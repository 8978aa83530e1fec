"""Set menus, combos, and what comes with a cover."""
