"""One file for each kind of joint, and what joints share."""
