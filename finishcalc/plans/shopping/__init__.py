"""One shopping list for several projects: cloth, battings and thread, and who wants them."""
