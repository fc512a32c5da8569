//! Why no cutting list can cost less: whole-number weights that anyone can check with an exact knapsack.
//!
//! Every weight set reads as prices: a piece is worth its weight, taking a stick earns or costs its stick weight,
//! and so on for every rule in force. If no filling of a stick is worth more than `unit` times the stick's price,
//! then all that must be cut is worth at most `unit` times the cost of any list (linear programming duality).

/// A condition on a cutting list that splits all lists in two.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Rule {
    /// How many sticks carry both kinds of piece (twice the kind, if they are the same).
    Together(usize, usize),
    /// How many sticks of this number are taken.
    Sticks(usize),
    /// Half the pieces of these kinds on a stick, rounded down, added over all sticks.
    Halves(Vec<usize>),
    /// How many sticks are cut exactly so: stick number, then kinds and how many of each.
    Cut(usize, Vec<(usize, i64)>),
}

/// Whole-number weights. Kinds of piece are the different lengths of the problem, longest first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Weights {
    /// What one unit of cost is worth; above zero.
    pub unit: i64,
    /// Worth of one piece of each kind; none below zero.
    pub kinds: Vec<i64>,
    /// Worth of taking one stick of each length; none above zero, and zero where there is no limit.
    pub sticks: Vec<i64>,
    /// Worth of meeting each rule in force once, outermost split first: none below zero on the side of at least,
    /// none above zero on the side of at most.
    pub rules: Vec<i64>,
}

/// Why no cutting list costs less than the lower bound.
///
/// Let `target` be the highest cost below the lower bound that prices allow. The worth of all that must be cut is
/// the sum of weight times demand, plus stick weight times limit, plus rule weight times the bound of the rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Proof {
    /// Nothing is proved beyond a cost of zero.
    None,
    /// No filling (left by the filters around) is worth more than `unit` times its price, yet all that must be
    /// cut is worth more than `unit` times the target.
    Weights(Weights),
    /// As weights, but what must be cut is worth no more than that. Then a filling whose worth falls short of
    /// `unit` times its price by more than the room left to `unit` times the target is in no list that cheap.
    Filter {
        /// The weights.
        weights: Weights,
        /// The proof for the fillings that are left.
        then: Box<Self>,
    },
    /// Either at most so many, or at least one more.
    Split {
        /// What is counted.
        rule: Rule,
        /// The bound.
        at_most: i64,
        /// Proof for the side of at most.
        below: Box<Self>,
        /// Proof for the side of at least `at_most + 1`.
        above: Box<Self>,
    },
    /// [`Rule::Halves`] of these kinds is at most half their demand, rounded down, in every list that cuts each
    /// piece just as often as asked; the rule is in force for the proof that follows.
    Halves {
        /// The kinds.
        kinds: Vec<usize>,
        /// The proof with the rule in force.
        then: Box<Self>,
    },
}
