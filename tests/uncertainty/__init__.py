"""How sure figures are, against survey sampling, closed forms, other libraries and real prices."""
