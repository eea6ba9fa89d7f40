"""People's papers: pictures, set-out sheets, cut lists, orders and layouts.json."""
