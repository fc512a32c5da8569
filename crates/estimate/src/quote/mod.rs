//! What a job costs and what is asked for it, line by line.
//!
//! Every rate is the shop's own. A rate that is not set is a question on the quote: its line stays open, and so does
//! every sum that would need it. Each line is rounded once, to the cent; sums are of the rounded lines.

mod price;
mod work;

pub use price::{Pricing, Profit, Quote, QuoteLine, Step, quote, waste};
pub use work::{Counted, HourRates, Minutes, WorkKind, WorkLine, WorkRate, Workload, work_lines};
