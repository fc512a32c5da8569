//! Length, angle, area, mass and money, read and printed as a tape does.
