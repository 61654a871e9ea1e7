"""Where tails and pins stand along a board, whatever the joint."""
