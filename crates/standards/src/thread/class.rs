//! `ThreadClass`: tolerance classes such as 6g, 4H5H and 2A.

use std::fmt;
use std::str::FromStr;

/// Whether a thread is on a shaft or in a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ThreadSide {
    /// Cut on the outside: a tenon, a bolt.
    External,
    /// Cut in a hole.
    Internal,
}

/// A tolerance class of a thread: ISO 965-1 (`6g`, `5g6g`, `6H`) or ASME B1.1 (`2A`, `2B`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ThreadClass(Kind);

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Kind {
    /// Grades of the pitch and the crest diameter, and the letter of the position.
    Iso {
        pitch: u8,
        crest: u8,
        position: char,
    },
    Unified {
        class: u8,
        side: ThreadSide,
    },
}

impl ThreadClass {
    /// 6g, the usual class of a metric thread on a shaft.
    pub const METRIC_EXTERNAL: ThreadClass = ThreadClass::iso(6, 'g');
    /// 6H, the usual class of a metric thread in a hole.
    pub const METRIC_INTERNAL: ThreadClass = ThreadClass::iso(6, 'H');
    /// 2A, the usual class of a unified thread on a shaft.
    pub const INCH_EXTERNAL: ThreadClass = ThreadClass(Kind::Unified {
        class: 2,
        side: ThreadSide::External,
    });
    /// 2B, the usual class of a unified thread in a hole.
    pub const INCH_INTERNAL: ThreadClass = ThreadClass(Kind::Unified {
        class: 2,
        side: ThreadSide::Internal,
    });

    const fn iso(grade: u8, position: char) -> ThreadClass {
        ThreadClass(Kind::Iso {
            pitch: grade,
            crest: grade,
            position,
        })
    }

    /// Whether it is a class of threads on shafts or in holes.
    pub fn side(self) -> ThreadSide {
        match self.0 {
            Kind::Iso { position, .. } if position.is_uppercase() => ThreadSide::Internal,
            Kind::Iso { .. } => ThreadSide::External,
            Kind::Unified { side, .. } => side,
        }
    }

    /// True for a class of ASME B1.1, false for one of ISO 965-1.
    pub fn is_inch(self) -> bool {
        matches!(self.0, Kind::Unified { .. })
    }

    pub(super) fn kind(self) -> Kind {
        self.0
    }
}

/// As it is written on a drawing: `6g`, `5g6g`, `2A`.
impl fmt::Display for ThreadClass {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Kind::Iso {
                pitch,
                crest,
                position,
            } if pitch == crest => write!(out, "{pitch}{position}"),
            Kind::Iso {
                pitch,
                crest,
                position,
            } => write!(out, "{pitch}{position}{crest}{position}"),
            Kind::Unified { class, side } => {
                let letter = if side == ThreadSide::External {
                    'A'
                } else {
                    'B'
                };
                write!(out, "{class}{letter}")
            }
        }
    }
}

/// Text that is no tolerance class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClassError {
    text: String,
}

impl fmt::Display for ClassError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "`{}` is no thread class; expected one such as 6g or 4h for an outside thread, 6H or 5H for an inside one, 2A or 2B in inches",
            self.text
        )
    }
}

impl std::error::Error for ClassError {}

impl FromStr for ThreadClass {
    type Err = ClassError;

    fn from_str(text: &str) -> Result<ThreadClass, ClassError> {
        read(text.trim()).ok_or_else(|| ClassError {
            text: text.trim().to_owned(),
        })
    }
}

fn read(text: &str) -> Option<ThreadClass> {
    let (first, second) = match text.len() {
        2 => (pair(text)?, None),
        4 if text.is_ascii() => (pair(&text[..2])?, Some(pair(&text[2..])?)),
        _ => return None,
    };
    let (grade, letter) = first;
    let kind = match letter {
        'A' | 'B' if second.is_none() && (1..=3).contains(&grade) => Kind::Unified {
            class: grade,
            side: if letter == 'A' {
                ThreadSide::External
            } else {
                ThreadSide::Internal
            },
        },
        'e' | 'f' | 'g' | 'h' | 'G' | 'H' => {
            let (crest, position) = second.unwrap_or(first);
            if position != letter || !(3..=9).contains(&grade) || !(3..=9).contains(&crest) {
                return None;
            }
            Kind::Iso {
                pitch: grade,
                crest,
                position,
            }
        }
        _ => return None,
    };
    Some(ThreadClass(kind))
}

fn pair(text: &str) -> Option<(u8, char)> {
    let mut chars = text.chars();
    let grade = chars.next()?.to_digit(10)?;
    let letter = chars.next()?;
    chars.next().is_none().then_some((grade as u8, letter))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_read_and_print() {
        for text in [
            "4h", "6h", "6g", "6f", "6e", "5g6g", "4H", "5H", "6H", "6G", "7H", "4H5H", "2A", "3B",
        ] {
            let class: ThreadClass = text.parse().unwrap();
            assert_eq!(class.to_string(), text);
            assert_eq!(class.is_inch(), text.ends_with(['A', 'B']));
        }
        assert_eq!("6g".parse(), Ok(ThreadClass::METRIC_EXTERNAL));
        assert_eq!("2B".parse(), Ok(ThreadClass::INCH_INTERNAL));
        assert_eq!(
            "6H".parse::<ThreadClass>().unwrap().side(),
            ThreadSide::Internal
        );
        assert_eq!(
            "2A".parse::<ThreadClass>().unwrap().side(),
            ThreadSide::External
        );
    }

    #[test]
    fn what_is_no_class_is_refused() {
        for text in [
            "", "6", "g6", "6k", "2g", "5g6h", "4A", "66gg", "6gé", "é", "6H6",
        ] {
            let fault = text.parse::<ThreadClass>().unwrap_err();
            assert!(
                fault.to_string().contains("expected one such as 6g"),
                "{text}"
            );
        }
    }
}
