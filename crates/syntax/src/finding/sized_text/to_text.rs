//! What may stand in a text, as a text.

use super::{Size, SizedText};
use quillet_geometry::{Angle, Length};
use quillet_standards::fit::Fit;
use quillet_standards::thread::{ThreadClass, ThreadForm};
use std::borrow::Cow;
use std::sync::Arc;

/// What may go into a text: words, counts, sizes, other texts.
pub trait ToText {
    /// As a text.
    fn to_text(&self) -> SizedText;
}

impl<T: ToText + ?Sized> ToText for &T {
    fn to_text(&self) -> SizedText {
        (**self).to_text()
    }
}

impl ToText for SizedText {
    fn to_text(&self) -> SizedText {
        self.clone()
    }
}

macro_rules! sized {
    ($($of:ty),*) => {
        $(impl ToText for $of {
            fn to_text(&self) -> SizedText {
                (*self).into()
            }
        })*
    };
}

macro_rules! worded {
    ($($of:ty),*) => {
        $(impl ToText for $of {
            fn to_text(&self) -> SizedText {
                self.to_string().into()
            }
        })*
    };
}

sized!(Size, Length);
worded!(
    str,
    String,
    Arc<str>,
    Cow<'_, str>,
    char,
    usize,
    u8,
    u32,
    u64,
    i32,
    i64,
    f64
);
worded!(Angle, ThreadForm, ThreadClass, Fit);
