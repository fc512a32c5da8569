//! Ending a search by hand, or by the clock: the best nest so far is taken.
//!
//! Nests are bounded by evaluations, so that they can be had again. An interrupt (Ctrl-C) while nests are looked for, or
//! the seconds that were allowed, end the search; the answer then says so. The seconds are shared among the looks that are
//! still to come, so that the first choice of sheets does not take them all. At any other time, and the second time, an
//! interrupt ends the program.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, Once, PoisonError};
use std::time::{Duration, Instant};

use clap::Args;

use crate::plan::Ending;
use crate::speech::{Refusal, tell};

/// Set once the search shall end.
static STOP: AtomicBool = AtomicBool::new(false);

/// Set once the look at hand has had its share of the seconds, and when the search shall end.
static OVER: AtomicBool = AtomicBool::new(false);

/// Set once a look was ended by its share.
static CUT_SHORT: AtomicBool = AtomicBool::new(false);

/// When the search ends, and when the look at hand does.
static CLOCK: Mutex<Clock> = Mutex::new(Clock { end: None, share: None });

/// True while nests are looked for.
static LOOKING: AtomicBool = AtomicBool::new(false);

/// Exit code of a program ended by an interrupt: 128 and the number of the signal (POSIX shells).
const INTERRUPTED: i32 = 130;

/// How often the clock is looked at.
const TICK: Duration = Duration::from_millis(10);

/// What the clock has to end.
struct Clock {
    end: Option<Instant>,
    share: Option<Instant>,
}

/// How long the person will wait.
#[derive(Debug, Args)]
pub(super) struct Wait {
    /// End the search for nests after so many seconds, with the best so far; Ctrl-C ends it at once
    #[arg(long, value_name = "SECONDS", allow_hyphen_values = true)]
    seconds: Option<String>,
}

impl Wait {
    /// Begins to count the seconds; `command` begins the message where they are none.
    pub(super) fn begin(&self, command: &str) -> Result<(), Refusal> {
        if let Some(written) = &self.seconds {
            let seconds = seconds(written).map_err(|wrong| {
                Refusal::bad(format!(
                    "{command}: --seconds: {written}: {wrong}\n    give whole seconds, 1 or more; without them the search ends by its \
                     evaluations"
                ))
            })?;
            let end = now().checked_add(Duration::from_secs(seconds.into()));
            on_the_clock(|clock| clock.end = end);
            std::thread::spawn(|| {
                while !STOP.load(Ordering::Relaxed) {
                    std::thread::sleep(TICK);
                    tick();
                }
            });
        }
        Ok(())
    }
}

/// Whole seconds above zero, or what is wrong with them.
fn seconds(written: &str) -> Result<u32, &'static str> {
    let written = written.trim();
    let is_whole = |digits: &str| !digits.is_empty() && digits.bytes().all(|digit| digit.is_ascii_digit());
    match written.parse::<u32>() {
        Ok(0) => Err("must be above zero"),
        Ok(seconds) => Ok(seconds),
        Err(_) if is_whole(written) => Err("is longer than anybody waits"),
        Err(_) if written.strip_prefix('-').is_some_and(is_whole) => Err("must be above zero"),
        Err(_) => Err("is no number of whole seconds"),
    }
}

#[expect(
    clippy::disallowed_methods,
    reason = "the seconds are an outer wish, and the answer says when they ended a search"
)]
fn now() -> Instant {
    Instant::now()
}

fn on_the_clock<T>(look: impl FnOnce(&mut Clock) -> T) -> T {
    look(&mut CLOCK.lock().unwrap_or_else(PoisonError::into_inner))
}

/// Ends what has had its time.
fn tick() {
    on_the_clock(|clock| {
        if clock.end.is_some_and(|end| end <= now()) {
            STOP.store(true, Ordering::Relaxed);
            OVER.store(true, Ordering::Relaxed);
        } else if clock.share.take_if(|share| *share <= now()).is_some() {
            OVER.store(true, Ordering::Relaxed);
            CUT_SHORT.store(true, Ordering::Relaxed);
        }
    });
}

/// Begins a look: of the time that is left it has its part, one of `left`. With 0 no look goes on.
fn begin_look(left: usize) {
    on_the_clock(|clock| {
        let began = now();
        let share = |end: Instant| {
            let parts = u32::try_from(left).ok().filter(|parts| 0 < *parts)?;
            began.checked_add(end.saturating_duration_since(began) / parts)
        };
        clock.share = clock.end.and_then(share);
        OVER.store(STOP.load(Ordering::Relaxed), Ordering::Relaxed);
    });
}

/// Runs a search that ends early once its argument says so.
pub(super) fn ended_by<T>(search: impl FnOnce(&Ending<'_>) -> T) -> T {
    static LISTENING: Once = Once::new();
    // Where no interrupt can be listened for, it ends the program as ever.
    LISTENING.call_once(|| drop(ctrlc::set_handler(heard)));
    LOOKING.store(true, Ordering::Relaxed);
    let ending = Ending { stop: &STOP, is_over: &OVER, was_cut_short: &CUT_SHORT, begin: &begin_look };
    let found = search(&ending);
    LOOKING.store(false, Ordering::Relaxed);
    found
}

fn heard() {
    if LOOKING.load(Ordering::Relaxed) && !STOP.swap(true, Ordering::Relaxed) {
        OVER.store(true, Ordering::Relaxed);
        tell("ending the search with the best so far; once more to leave without an answer");
    } else {
        std::process::exit(INTERRUPTED);
    }
}
