"""The alternatives to a result, each planned and priced as a quote of its own, less the quote as it is."""
