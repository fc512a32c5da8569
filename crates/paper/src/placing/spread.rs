//! Rows of labels that keep their distance.

/// Moves `wanted` places (in rising order) apart until neighbours are at least `gap_mm` from one another, as little
/// as possible in the sense of least squares; none goes below `least_mm`. The order stays.
///
/// By pooling neighbours that push on one another (isotonic regression): subtracting each label's share of the gaps
/// turns the task into a rising sequence, and every pool settles on the mean of its members. A floor then only lifts
/// the first ones.
#[must_use]
pub fn spread(wanted: &[f64], gap_mm: f64, least_mm: f64) -> Vec<f64> {
    struct Pool {
        sum: f64,
        count: f64,
        members: usize,
    }
    let mut pools: Vec<Pool> = Vec::new();
    let mut share = 0.0;
    for place in wanted {
        let mut pool = Pool { sum: place - share, count: 1.0, members: 1 };
        while let Some(last) = pools.pop_if(|last| pool.sum / pool.count < last.sum / last.count) {
            pool = Pool {
                sum: pool.sum + last.sum,
                count: pool.count + last.count,
                members: pool.members + last.members,
            };
        }
        pools.push(pool);
        share += gap_mm;
    }
    let settled = pools.iter().flat_map(|pool| std::iter::repeat_n(pool.sum / pool.count, pool.members));
    let mut share = 0.0;
    settled
        .map(|mean| {
            let place = mean.max(least_mm) + share;
            share += gap_mm;
            place
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::tolerance::SAME_POINT_MM;
    use proptest::prelude::*;

    #[test]
    fn a_lone_label_stays_and_a_crowd_opens_about_its_middle() {
        let places = spread(&[0.0, 50.0, 51.0, 52.0], 5.0, 0.0);
        let expected = [0.0, 46.0, 51.0, 56.0];
        assert!(places.iter().zip(expected).all(|(a, b)| (a - b).abs() < SAME_POINT_MM), "{places:?}");
    }

    proptest! {
        #[test]
        fn neighbours_keep_their_distance(mut wanted in prop::collection::vec(0.0..500.0_f64, 0..40)) {
            wanted.sort_by(f64::total_cmp);
            let places = spread(&wanted, 7.0, -1.0e6);
            prop_assert!(places.windows(2).all(|pair| 7.0 - SAME_POINT_MM <= pair[1] - pair[0]));
            let mean = |values: &[f64]| values.iter().sum::<f64>();
            prop_assert!((mean(&wanted) - mean(&places)).abs() < 1.0e3 * SAME_POINT_MM);
        }
    }
}
