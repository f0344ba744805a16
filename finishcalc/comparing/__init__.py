"""One design in many sizes: a layer on the whole story, in which every size is a project like any other."""
