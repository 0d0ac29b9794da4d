"""Pure functions: numbers in, figure and verdict out.

Imports the standard library, Shapely where polygons need it, the errors, and itself; knows
nothing of books or of the web. Units are in the names (mm, kg, N, °C, %, lx). Outside its
range of validity a method refuses; the verdict is then "not known" and says what is missing.
"""
