"""Every kind of entry, described once: fields, units, bounds, choices, rules, typed text. Knows nothing of books."""
