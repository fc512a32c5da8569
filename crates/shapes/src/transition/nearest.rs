//! A transition that cannot be laid out or folded: which height, or which number of triangles, would do.

use units::Length;

use super::Transition;
use crate::{Making, Problem};

/// Step of heights, 1/16 in.
const STEP: Length = Length::from_sixty_fourths(4);

/// Heights that are tried first, as shares of the one given in sixteenths: up to sixteen times as high.
const SIXTEENTHS: [i64; 11] = [17, 18, 20, 22, 24, 28, 32, 48, 64, 128, 256];

/// Most triangles in a quarter.
pub(super) const MOST_DIVISIONS: u32 = 12;

impl Transition {
    /// What is wrong, with the nearest height and number of triangles that would do in the place of a remedy without numbers.
    pub(super) fn with_nearest(&self, mut problems: Vec<Problem>, making: &Making) -> Vec<Problem> {
        if let (Some(problem), Some(remedy)) = (problems.first_mut(), self.nearest(making)) {
            problem.remedy = remedy;
        }
        problems
    }

    /// The least height above the one given, and the nearest number of triangles in a quarter, with which every piece was laid
    /// flat and refolded; `None` where none of those tried does.
    pub(super) fn nearest(&self, making: &Making) -> Option<String> {
        let height =
            self.least_height(making).map(|height| format!("a height of {} would do", making.print(height)));
        let divisions = self.nearest_divisions(making).map(|count| match count {
            1 => "1 division a quarter would do".to_owned(),
            _ => format!("{count} divisions a quarter would do"),
        });
        let ways: Vec<String> = height.into_iter().chain(divisions).collect();
        (!ways.is_empty()).then(|| ways.join("; or "))
    }

    /// True when every piece of it can be made, and comes out of the flat as designed.
    fn works(&self, making: &Making) -> bool {
        let Ok(layout) = self.layout(making) else { return false };
        (0..4 / self.made_of.sides()).all(|piece| {
            layout.piece(piece, making).is_ok_and(|shaped| {
                shaped.unfold().is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
            })
        })
    }

    fn least_height(&self, making: &Making) -> Option<Length> {
        let works = |steps: i64| Self { height: STEP * steps, ..self.clone() }.works(making);
        // In whole steps above the height that does not do.
        let own = self.height.nanometres() / STEP.nanometres();
        let tried = SIXTEENTHS.iter().map(|share| (own * share / 16).max(own + 1));
        let mut low = own;
        let mut high = None;
        for steps in tried {
            if works(steps) {
                high = Some(steps);
                break;
            }
            low = low.max(steps);
        }
        let mut high = high?;
        while low + 1 < high {
            let middle = i64::midpoint(low, high);
            if works(middle) { high = middle } else { low = middle }
        }
        Some(STEP * high)
    }

    fn nearest_divisions(&self, making: &Making) -> Option<u32> {
        let mut others: Vec<u32> = (1..=MOST_DIVISIONS).filter(|count| *count != self.divisions).collect();
        // The nearest first; of two the finer.
        others.sort_by_key(|count| (count.abs_diff(self.divisions), *count < self.divisions));
        others.into_iter().find(|&divisions| Self { divisions, ..self.clone() }.works(making))
    }
}
