//! What stops a part that does not come out: what frees it when it is taken out of the way.

use geometry::grid::{GridError, GridOutline};
use units::{Length, LengthStyle};

use super::Space;
use super::search::{STEPS_MILLIDEGREES, Search};

/// Finest tilt step at which one thing after another is taken out of the way, thousandths of a degree.
const TRIAL_STEP: i32 = 250;

/// Rounds of halving in the search for the shortest opening that would do.
const HALVINGS: u32 = 8;

/// What frees the part when it is taken out of the way.
///
/// # Errors
/// [`GridError`] when the part or the space is larger than the grid.
pub(super) fn reason(space: &Space, profile: &GridOutline, style: LengthStyle) -> Result<String, GridError> {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
    let frees = |trial: &Space| Ok(Search::new(trial, profile, TRIAL_STEP).path()?.is_some());
    let (low, high) = profile.bounds();
    let size = (high - low).millimetres();
    let much = 2.0 * (size.x + size.y);
    if !Search::new(space, profile, STEPS_MILLIDEGREES[3]).can_start()? {
        return Ok(format!(
            "it does not stand level in the space below, being {} long and {} high",
            print(size.x),
            print(size.y)
        ));
    }
    if space.headroom_mm.is_some() && frees(&Space { headroom_mm: None, ..*space })? {
        return Ok("what is overhead stops the end that goes up".to_owned());
    }
    if frees(&Space { depth_mm: space.depth_mm + much, ..*space })? {
        return Ok("the floor stops the end that goes down before the other end comes through".to_owned());
    }
    if frees(&Space { reach_mm: [much, much], ..*space })? {
        return Ok("the wall of the space below stops the end that goes down".to_owned());
    }
    let opened = |by: f64| Space { opening_mm: space.opening_mm + by, ..*space };
    if !frees(&opened(much))? {
        return Ok("several things stop it together: opening, deck, floor and walls".to_owned());
    }
    let (mut fails, mut does) = (0.0, much);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (fails + does);
        if frees(&opened(middle))? { does = middle } else { fails = middle }
    }
    Ok(format!(
        "the edges of the opening hold it between them; an opening {} long would do",
        print(space.opening_mm + does)
    ))
}
