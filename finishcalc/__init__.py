"""finishcalc: what a finished quilt top still costs, in cloth, time and money."""

__version__ = "0.1.0"
