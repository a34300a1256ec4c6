//! Published threads, fits, drills and materials, every row with its source.
