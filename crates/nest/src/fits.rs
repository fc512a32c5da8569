//! Which parts fit which sheets at all.

use geometry::grid::Turn;

use crate::drop;
use crate::figure::Figures;
use crate::problem::{Part, Problem, Rules, Turns};
use crate::search::filling::Filling;

/// A part that fits no sheet it may be cut from, with the sizes that show why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misfit {
    /// Which part, counted as in [`Problem::parts`].
    pub part: usize,
    /// Its mark.
    pub mark: String,
    /// Length (x) and width (y) it needs at each allowed turn, in steps.
    pub needs: Vec<(Turn, i64, i64)>,
    /// Every sheet tried.
    pub sheets: Vec<Tried>,
}

/// A sheet that holds a part at none of its turns.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tried {
    /// Which size, counted as in [`Problem::stock`].
    pub stock: usize,
    /// Its name.
    pub name: String,
    /// Length and width inside its edge trim, in steps; of an offcut those of the rectangle around it.
    pub size: (i64, i64),
    /// Of an offcut around which the rectangle would do: what its own outline has.
    pub outline: Option<Outlined>,
}

/// What the outline of an offcut has where it holds no place for a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outlined {
    /// Length and width of the largest upright rectangle found in its usable metal; none where there is none.
    pub largest: Option<(i64, i64)>,
    /// The part would fit with no edge trim at all.
    pub fits_untrimmed: bool,
    /// The part would fit if it might take these turns.
    pub fits_turned: Option<Turns>,
}

/// The parts that fit none of the sizes `stock`.
pub(crate) fn misfits(problem: &Problem, figures: &Figures, stock: &[usize]) -> Vec<Misfit> {
    let sizes: Vec<(i64, i64)> =
        stock.iter().map(|&size| problem.stock()[size].trimmed(problem.rules())).collect();
    let fits = |part: usize| {
        figures
            .of_part(part)
            .iter()
            .any(|&figure| stock.iter().any(|&stock| is_held(problem, figures, figure, stock)))
    };
    let misfit = |part: usize| {
        // Turned over at a quarter turn it takes the same rectangle.
        let told = |&&index: &&usize| {
            let pose = figures.get(index).pose;
            !pose.over || pose.turn.quarters().is_none()
        };
        let needs = figures.of_part(part).iter().filter(told).map(|&index| {
            let figure = figures.get(index);
            (figure.pose.turn, figure.size.x, figure.size.y)
        });
        let named = stock.iter().zip(&sizes).map(|(&stock, &size)| Tried {
            stock,
            name: problem.stock()[stock].name.clone(),
            size,
            outline: None,
        });
        let mark = problem.parts()[part].mark.clone();
        Misfit { part, mark, needs: needs.collect(), sheets: named.collect() }
    };
    (0..problem.parts().len()).filter(|&part| !fits(part)).map(misfit).collect()
}

fn is_held(problem: &Problem, figures: &Figures, figure: usize, stock: usize) -> bool {
    let (length, width) = problem.stock()[stock].trimmed(problem.rules());
    let size = figures.get(figure).size;
    let is_offcut = !figures.missing(stock).is_empty();
    let fits = size.x <= length && size.y <= width;
    fits && (!is_offcut || Filling::new(problem, figures, stock).spot(figure).is_some())
}

/// The same with what the outlines of offcuts have where the rectangles around them would do.
pub(crate) fn explained(problem: &Problem, mut misfits: Vec<Misfit>) -> Vec<Misfit> {
    for misfit in &mut misfits {
        let (part, needs) = (misfit.part, &misfit.needs);
        for tried in &mut misfit.sheets {
            let (length, width) = tried.size;
            let is_within = needs.iter().any(|&(_, x, y)| x <= length && y <= width);
            if is_within && problem.stock()[tried.stock].offcut().is_some() {
                tried.outline = Some(outlined(problem, part, tried.stock));
            }
        }
    }
    misfits
}

fn outlined(problem: &Problem, part: usize, stock: usize) -> Outlined {
    let own = &problem.parts()[part].turns;
    let trim = problem.rules().edge_trim;
    let others = [Turns::Quarter, Turns::Any].into_iter().filter(|turns| turns != own && *own != Turns::Any);
    Outlined {
        largest: drop::largest_of_empty(problem, stock).map(|drop| {
            let size = drop.high - drop.low;
            (size.x, size.y)
        }),
        fits_untrimmed: 0 < trim && would_fit(problem, part, stock, own, 0),
        fits_turned: others.into_iter().find(|turns| would_fit(problem, part, stock, turns, trim)),
    }
}

/// Whether one piece of a part fits a size alone, with these turns and this trim.
fn would_fit(problem: &Problem, part: usize, stock: usize, turns: &Turns, edge_trim: i64) -> bool {
    let part = Part { turns: turns.clone(), quantity: 1, ..problem.parts()[part].clone() };
    let rules = Rules { edge_trim, ..*problem.rules() };
    let Ok(alone) = Problem::new(vec![part], vec![problem.stock()[stock].clone()], rules) else {
        return false;
    };
    let figures = Figures::new(&alone);
    figures.of_part(0).iter().any(|&figure| is_held(&alone, &figures, figure, 0))
}
