//! Sharing a whole number out so that the shares add up to it exactly.

/// Why a total could not be shared out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum ApportionError {
    /// There is something to share and nobody, or only zero weights, to share it among.
    #[error("there is nothing to share the total among")]
    NoWeight,
    /// A weight is below zero.
    #[error("weight number {index} is below zero")]
    NegativeWeight {
        /// Which one, counted from 0.
        index: usize,
    },
    /// The weights add up to more than can be counted.
    #[error("the weights add up to more than can be counted")]
    TooLarge,
}

/// Shares `total` in proportion to `weights`, the shares adding up to `total` exactly.
///
/// Every share is the exact one rounded down or up: the units left over by rounding down go to the largest
/// remainders, among equals to the earlier weight. A negative total is shared as the positive one, then negated.
///
/// Source: method of largest remainders (Hamilton's method of apportionment).
///
/// # Errors
/// [`ApportionError`]; a total of zero is shared among any weights that are not negative.
pub fn apportion(total: i128, weights: &[i128]) -> Result<Vec<i128>, ApportionError> {
    if let Some(index) = weights.iter().position(|&weight| weight < 0) {
        return Err(ApportionError::NegativeWeight { index });
    }
    let sum = weights.iter().try_fold(0_i128, |sum, &weight| sum.checked_add(weight));
    let sum = sum.ok_or(ApportionError::TooLarge)?.unsigned_abs();
    if sum == 0 {
        return if total == 0 { Ok(vec![0; weights.len()]) } else { Err(ApportionError::NoWeight) };
    }
    let whole = total.unsigned_abs();
    let mut shares: Vec<(u128, u128)> =
        weights.iter().map(|weight| multiply_divide(whole, weight.unsigned_abs(), sum)).collect();
    let given: u128 = shares.iter().map(|(share, _)| share).sum();
    let mut order: Vec<usize> = (0..shares.len()).collect();
    order.sort_by_key(|&index| std::cmp::Reverse(shares.get(index).map_or(0, |&(_, remainder)| remainder)));
    let mut left = whole - given;
    for index in order {
        if let (true, Some((share, _))) = (left > 0, shares.get_mut(index)) {
            *share += 1;
            left -= 1;
        }
    }
    Ok(shares.into_iter().map(|(share, _)| signed(share, total < 0)).collect())
}

fn signed(share: u128, negative: bool) -> i128 {
    // The share is at most the total's magnitude, so only the least number of all needs the fall-back.
    i128::try_from(share).map_or(i128::MIN, |share| if negative { -share } else { share })
}

/// Quotient and remainder of `total × weight / sum` without overflow, for `weight ≤ sum < 2^127`.
///
/// Long multiplication and division bit by bit, keeping the remainder below `sum` all the time.
fn multiply_divide(total: u128, weight: u128, sum: u128) -> (u128, u128) {
    let (mut quotient, mut remainder) = (0_u128, 0_u128);
    for bit in (0..u128::BITS).rev() {
        let addend = if total >> bit & 1 == 1 { weight } else { 0 };
        // Reduced before adding: twice a remainder below 2^127 fits, and so does a remainder plus the weight.
        let doubled = remainder * 2;
        let raised = doubled % sum + addend;
        quotient = quotient * 2 + doubled / sum + raised / sum;
        remainder = raised % sum;
    }
    (quotient, remainder)
}
