//! Where in the file something stands, and the messages gathered on the way.

use std::fmt::Write as _;

use crate::message::{Message, shown};

/// Most messages that are printed of one file.
const MOST_MESSAGES: usize = 100;

/// A place in the job file: inside a part counted from the part, elsewhere from the top.
#[derive(Debug, Clone, Default)]
pub(crate) struct Place {
    mark: Option<String>,
    field: String,
    /// Fields of the part that stand in the edit of an opposite hand.
    edited: Vec<String>,
}

impl Place {
    /// The field `name` at the top.
    pub(crate) fn top(name: &str) -> Self {
        Self { field: name.to_owned(), ..Self::default() }
    }

    /// The part with this mark.
    pub(crate) fn part(mark: &str) -> Self {
        Self { mark: Some(shown(mark)), ..Self::default() }
    }

    /// The part with this mark, some of whose fields stand in the edit of an opposite hand.
    pub(crate) fn hand(mark: &str, edited: &[String]) -> Self {
        Self { edited: edited.to_vec(), ..Self::part(mark) }
    }

    /// The mark of the part, inside one.
    pub(crate) fn mark(&self) -> Option<&str> {
        self.mark.as_deref()
    }

    /// The place in words: `shop.strips[0]`.
    pub(crate) fn words(&self) -> &str {
        &self.field
    }

    /// The field `name` here.
    pub(crate) fn field(&self, name: &str) -> Self {
        let mut place = self.clone();
        if !place.field.is_empty() {
            place.field.push('.');
        } else if self.edited.iter().any(|field| field == name) {
            place.field.push_str("opposite_hand.edit.");
        }
        place.field.push_str(&shown(name));
        place
    }

    /// Entry `number` of the list here, counted from zero.
    pub(crate) fn entry(&self, number: usize) -> Self {
        let mut place = self.clone();
        // Writing to a text never fails.
        let _ = write!(place.field, "[{number}]");
        place
    }
}

/// Messages gathered while reading one file.
#[derive(Debug)]
pub(crate) struct Findings {
    file: String,
    messages: Vec<Message>,
}

impl Findings {
    /// Nothing found yet.
    pub(crate) fn new(file: &str) -> Self {
        Self { file: shown(file), messages: Vec::new() }
    }

    /// Adds one message.
    pub(crate) fn add(
        &mut self,
        place: &Place,
        value: &str,
        wrong: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.messages.push(Message {
            file: self.file.clone(),
            mark: place.mark.clone(),
            field: place.field.clone(),
            value: shown(value),
            wrong: wrong.into(),
            remedy: remedy.into(),
        });
    }

    /// Adds messages about another file that the job uses.
    pub(crate) fn extend(&mut self, messages: Vec<Message>) {
        self.messages.extend(messages);
    }

    /// True when nothing was found.
    pub(crate) fn is_empty(&self) -> bool {
        self.messages.is_empty()
    }

    /// What was found, and past a hundred only how much more there is.
    pub(crate) fn into_messages(mut self) -> Vec<Message> {
        let more = self.messages.len().saturating_sub(MOST_MESSAGES);
        if more > 0 {
            self.messages.truncate(MOST_MESSAGES);
            self.add(&Place::default(), "", format!("and {more} more"), "mend these first, then check again");
        }
        self.messages
    }
}
