"""The layout engine: boards, the wood that leaves them, and the lines on every face.

It knows nothing of paper, drawing or PDF. All lengths are exact millimetres.
"""
