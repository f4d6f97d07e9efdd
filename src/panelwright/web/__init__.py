"""The board's server: requests and messages to `app`, answers back; it listens to this computer alone."""
