//! Sharing time, which only the caller knows, among the choices of sheets.

use std::sync::atomic::AtomicBool;

use crate::search::Watch;

/// How the caller shares the time that it will wait.
#[derive(Clone, Copy)]
pub struct Pace<'a> {
    /// Called before a choice is looked at longer, with how many looks are still to come, this one counted; with 0 after the
    /// last. Every choice has had a first look by then.
    pub begin: &'a (dyn Fn(usize) + Sync),
    /// True once the look at hand has had its share, or all shall stop. Becomes false as the next begins, unless all shall stop.
    pub is_over: &'a AtomicBool,
}

/// The looks that are still to come.
pub(super) struct Looks<'a> {
    watch: &'a Watch<'a>,
    pace: Option<Pace<'a>>,
    left: usize,
}

impl<'a> Looks<'a> {
    pub(super) const fn new(watch: &'a Watch<'a>, pace: Option<Pace<'a>>, left: usize) -> Self {
        Self { watch, pace, left }
    }

    /// Begins the next look: how it is followed and ended.
    pub(super) fn next(&mut self) -> Watch<'a> {
        let left = self.left.max(1);
        self.left = left - 1;
        match self.pace {
            Some(pace) if !self.watch.is_stopped() => {
                (pace.begin)(left);
                Watch { stop: pace.is_over, ..*self.watch }
            }
            _ => *self.watch,
        }
    }

    /// How all of it is followed and ended.
    pub(super) const fn watch(&self) -> &'a Watch<'a> {
        self.watch
    }

    /// So many looks are left of those that were counted.
    pub(super) const fn are_left(&mut self, left: usize) {
        self.left = left;
    }

    pub(super) fn end(&self) {
        if let Some(pace) = self.pace {
            (pace.begin)(0);
        }
    }
}
