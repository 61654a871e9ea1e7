"""Paper: sizes, packing, seams, rulers, match marks and the page map. It knows no wood."""
