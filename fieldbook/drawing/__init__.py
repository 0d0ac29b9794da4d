"""Everything that draws: elevations, plans, plots, signs; all in millimetres of paper."""
