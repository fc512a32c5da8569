//! Recipes that turn shop sizes into folded parts, one file each.
//!
//! A recipe knows neither the job file nor the sheets. It takes sizes, each said to which face it is, and gives a
//! [`Shaped`] part with the facts a shop wants to read off it, or every [`Problem`] it found.

pub mod brake_profile;
pub mod bulkhead;
pub mod coaming;
pub mod cone;
pub mod console;
pub mod covers;
pub mod cylinder;
pub mod day_box;
pub mod deck;
pub mod edge;
pub mod figure;
pub mod gutter;
pub mod hole;
pub mod hopper;
pub mod lid;
pub mod locker;
pub mod opening;
pub mod pan;
pub mod panel;
pub mod plate;
pub mod ring;
pub mod rolled_pipe;
pub mod split_plate;
pub mod step;
mod strip_on_frame;
pub mod tapered_lid;
pub mod transition;
pub mod tray;
pub mod walk;
pub mod wrap;

mod clearance;
mod corner_style;
mod fact;
mod flat_piece;
mod joggle;
mod joined;
mod making;
pub mod nearest;
mod nearest_lap;
mod not_convex;
mod places;
mod plan;
mod problem;
mod recipe;
mod runs;
mod shell;
mod weight_limit;
mod whole;

pub use clearance::{Clearance, ClearanceItem};
pub use corner_style::{Chosen, CornerStyle, SeamName};
pub use fact::{Fact, FactValue, JoinedGap, near_bend_words};
pub use figure::Figure;
pub use making::{Making, ReliefHole, ReliefStyle, Shaped, round_relief_diameter};
pub use nearest_lap::nearest_lap;
pub use not_convex::{NotConvex, not_convex};
pub use places::Places;
pub use problem::Problem;
pub use recipe::{DrawnFace, FaceSide, Piece, Recipe};
pub use weight_limit::WeightLimit;
