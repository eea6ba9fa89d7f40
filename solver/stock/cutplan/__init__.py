"""The cut plan: how every unit of a layout is cut up, cut by cut, in laying order."""
