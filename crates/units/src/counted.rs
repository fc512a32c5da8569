//! Sums of quantities that are counts of a small unit.

/// Sums, differences and whole multiples of a quantity that counts in the given integer. They stop at the ends of its
/// range.
macro_rules! counted {
    ($quantity:ident, $count:ty) => {
        impl std::ops::Add for $quantity {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0.saturating_add(other.0))
            }
        }

        impl std::ops::AddAssign for $quantity {
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }

        impl std::ops::Sub for $quantity {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0.saturating_sub(other.0))
            }
        }

        impl std::ops::SubAssign for $quantity {
            fn sub_assign(&mut self, other: Self) {
                *self = *self - other;
            }
        }

        impl std::ops::Neg for $quantity {
            type Output = Self;
            fn neg(self) -> Self {
                Self(self.0.saturating_neg())
            }
        }

        impl std::ops::Mul<i64> for $quantity {
            type Output = Self;
            fn mul(self, times: i64) -> Self {
                Self(self.0.saturating_mul(<$count>::from(times)))
            }
        }

        impl std::iter::Sum for $quantity {
            fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
                all.fold(Self::ZERO, std::ops::Add::add)
            }
        }
    };
}
