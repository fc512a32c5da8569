//! Sheets beyond those there are, to begin from.

use crate::problem::{Problem, Stock};
use crate::search::AREA_UNIT;

impl Problem {
    /// The problem with a dear further size for each limited one among `sizes`, behind those there are. A nest on fewer of the
    /// further sheets is always cheaper, so that the search works to do without. `None` where none is limited.
    pub(crate) fn with_further_sheets(&self, sizes: &[usize]) -> Option<Self> {
        let limited = || sizes.iter().filter(|&&stock| self.stock[stock].limit.is_some());
        limited().next()?;
        let price = |stock: &Stock| match stock.price {
            Some(price) if self.is_priced() => price,
            _ => u64::try_from(stock.area() / AREA_UNIT).unwrap_or(u64::MAX).max(1),
        };
        let all = |stock: &Stock| price(stock).saturating_mul(stock.limit.unwrap_or(0).into());
        // Sheets of a size without limit are never run out of: what fits them is not looked for here.
        let dear = limited().map(|&stock| all(&self.stock[stock])).fold(1_u64, u64::saturating_add);
        let mut stock: Vec<Stock> =
            self.stock.iter().map(|stock| Stock { price: Some(price(stock)), ..stock.clone() }).collect();
        stock.extend(limited().map(|&further| {
            let size = &self.stock[further];
            Stock { price: Some(dear.saturating_add(price(size))), limit: None, ..size.clone() }
        }));
        Some(Self { stock, ..self.clone() })
    }
}
