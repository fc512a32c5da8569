//! Sheets as they were received: read, written, and held against the job that they are for.

mod against_job;
mod read;
mod sheet;
mod write;

pub use read::{NewReceived, new_received, read_received};
pub use sheet::{Received, ReceivedSheet};
pub use write::received_text;

/// Version of the file that is written and read.
const VERSION: u64 = 1;
