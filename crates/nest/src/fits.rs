//! Which parts fit which sheets at all.

use geometry::grid::Turn;

use crate::figure::Figures;
use crate::problem::Problem;
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
    /// Name, length and width inside the edge trim of each sheet tried, in steps; of an offcut those of the rectangle
    /// around it.
    pub sheets: Vec<(String, i64, i64)>,
}

/// The parts that fit none of the sizes `stock`.
pub(crate) fn misfits(problem: &Problem, figures: &Figures, stock: &[usize]) -> Vec<Misfit> {
    let sizes: Vec<(i64, i64)> =
        stock.iter().map(|&size| problem.stock()[size].trimmed(problem.rules())).collect();
    let fits = |part: usize| {
        figures.of_part(part).iter().any(|&figure| {
            let size = figures.get(figure).size;
            stock.iter().zip(&sizes).any(|(&stock, &(length, width))| {
                let is_offcut = !figures.missing(stock).is_empty();
                let fits = size.x <= length && size.y <= width;
                fits && (!is_offcut || Filling::new(problem, figures, stock).spot(figure).is_some())
            })
        })
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
        let named = stock
            .iter()
            .zip(&sizes)
            .map(|(&size, &(length, width))| (problem.stock()[size].name.clone(), length, width));
        let mark = problem.parts()[part].mark.clone();
        Misfit { part, mark, needs: needs.collect(), sheets: named.collect() }
    };
    (0..problem.parts().len()).filter(|&part| !fits(part)).map(misfit).collect()
}
