"""Handbooks that several families take rules from."""

FURNITURE_MAKING = "The Technique of Furniture Making, chapter on dovetailing"
NOYES_48 = "Noyes, Handwork in Wood, 1910, ch. VII, no. 48"
NOYES_49 = "Noyes, Handwork in Wood, 1910, ch. VII, no. 49"
NOYES_50_AND_51 = "Noyes, Handwork in Wood, 1910, ch. VII, nos. 50 and 51"
