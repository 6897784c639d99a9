//! Rectangles on sheets: guillotine layouts for a saw, with lower bounds.
