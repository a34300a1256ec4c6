//! Whole parts, pens and joints to fill in, beside the bare lines that begin them.

use super::{About, Choice, ChoiceKind};
use quillet_syntax::words::Place;

/// Something whole: where it stands, what it is called, what it is, its text with stops.
struct Whole {
    place: Place,
    label: &'static str,
    detail: &'static str,
    snippet: &'static str,
}

const WHOLES: &[Whole] = &[
    Whole {
        place: Place::Item,
        label: "part, whole",
        detail: "a part with its blank, its outside and a hole",
        snippet: "part ${1:barrel} from ${2:mouth} to ${3:tail} {
\tblank of ${4:acrylic} rod ${5:18}
\tlength ${6:80}
\toutside {
\t\tat $2 dia ${7:14}
\t\tat $3 dia ${8:12} smooth
\t}
\tfrom $2 {
\t\tdrill ${9:8} to ${10:65}
\t}$0
}",
    },
    Whole {
        place: Place::Item,
        label: "pen, whole",
        detail: "a pen with its joints and what is wanted of it",
        snippet: "pen ${1:heron} \"${2:Heron}\" {
\tscrew ${3:section.shank} into ${4:barrel.mouth}
\tclose ${5:cap.mouth} onto $4 {
\t\tseat $5 on ${6:barrel.shoulder}
\t\twant turns within ${7:0.75..2}
\t}
\twant length(capped) <= ${8:145}$0
}",
    },
    Whole {
        place: Place::Pen,
        label: "close, with its seat",
        detail: "the cap's joint, the faces meant to touch and the turns that are wanted",
        snippet: "close ${1:cap.mouth} onto ${2:barrel.mouth} {
\tseat $1 on ${3:barrel.shoulder}
\twant turns within ${4:0.75..2}$0
}",
    },
    Whole {
        place: Place::Pen,
        label: "screw, with its seat",
        detail: "a threaded joint and the faces meant to touch",
        snippet: "screw ${1:section.shank} into ${2:barrel.mouth} {
\tseat ${3:section.shoulder} on $2$0
}",
    },
];

/// What can be begun at a place as a whole.
pub(super) fn wholes(place: Place) -> Vec<Choice> {
    let here = WHOLES.iter().filter(|whole| whole.place == place);
    here.map(|whole| {
        let bare = Choice::plain(whole.label, ChoiceKind::Whole, whole.detail, About::Nothing);
        bare.snippet(whole.snippet)
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A snippet as it reads with its stops left as they are.
    fn filled(snippet: &str) -> String {
        let mut named = std::collections::BTreeMap::new();
        let mut out = String::new();
        let mut rest = snippet;
        while let Some((before, after)) = rest.split_once('$') {
            out.push_str(before);
            rest = match after.strip_prefix('{') {
                Some(stop) => {
                    let (number, stop) = stop.split_once(':').unwrap();
                    let (said, rest) = stop.split_once('}').unwrap();
                    named.insert(number.to_owned(), said.to_owned());
                    out.push_str(said);
                    rest
                }
                None => {
                    let (number, rest) = after.split_at(1);
                    out.push_str(named.get(number).map_or("", String::as_str));
                    rest
                }
            };
        }
        out + rest
    }

    #[test]
    fn what_is_begun_as_a_whole_can_be_read_as_it_stands() {
        for whole in WHOLES {
            let text = filled(whole.snippet);
            let text = match whole.place {
                Place::Pen => format!("pen heron {{\n{text}\n}}\n"),
                _ => text,
            };
            let parsed = quillet_syntax::parse(quillet_syntax::FileId::default(), &text);
            assert!(parsed.findings.is_empty(), "{text}\n{:?}", parsed.findings);
        }
    }
}
