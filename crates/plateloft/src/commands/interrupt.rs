//! Ending a search by hand, or by the clock: the best nest so far is taken.
//!
//! Nests are bounded by evaluations, so that they can be had again. An interrupt (Ctrl-C) while nests are looked for, or
//! the seconds that were allowed, end the search; the answer then says so. At any other time, and the second time, an
//! interrupt ends the program.

use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use clap::Args;

use crate::speech::tell;

/// Set once the search shall end.
static STOP: AtomicBool = AtomicBool::new(false);

/// True while nests are looked for.
static LOOKING: AtomicBool = AtomicBool::new(false);

/// Exit code of a program ended by an interrupt: 128 and the number of the signal (POSIX shells).
const INTERRUPTED: i32 = 130;

/// How long the person will wait.
#[derive(Debug, Args)]
pub(super) struct Wait {
    /// End the search for nests after so many seconds, with the best so far; Ctrl-C ends it at once
    #[arg(long, value_name = "SECONDS", value_parser = clap::value_parser!(u32).range(1..))]
    seconds: Option<u32>,
}

impl Wait {
    /// Begins to count the seconds.
    pub(super) fn begin(&self) {
        if let Some(seconds) = self.seconds {
            std::thread::spawn(move || {
                std::thread::sleep(Duration::from_secs(seconds.into()));
                STOP.store(true, Ordering::Relaxed);
            });
        }
    }
}

/// Runs a search that ends early once its argument is true.
pub(super) fn ended_by<T>(search: impl FnOnce(&AtomicBool) -> T) -> T {
    static LISTENING: Once = Once::new();
    // Where no interrupt can be listened for, it ends the program as ever.
    LISTENING.call_once(|| drop(ctrlc::set_handler(heard)));
    LOOKING.store(true, Ordering::Relaxed);
    let found = search(&STOP);
    LOOKING.store(false, Ordering::Relaxed);
    found
}

fn heard() {
    if LOOKING.load(Ordering::Relaxed) && !STOP.swap(true, Ordering::Relaxed) {
        tell("ending the search with the best so far; once more to leave without an answer");
    } else {
        std::process::exit(INTERRUPTED);
    }
}
