"""The data tables, the printed forms and the pages of the kitchen and its prices."""
