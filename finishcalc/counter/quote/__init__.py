"""The quote: what a customer sees of a result, in pieces that a page renews one by one."""
