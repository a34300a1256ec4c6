//! Each question put to `ide` or `export`, and its answer as JSON.

mod compare;
mod findings;
mod made;
mod names;
mod room;
mod shown;
mod text;
mod written;

use crate::files::Files;
use crate::opened::Opened;
use crate::question::Question;
use serde::Serialize;

/// The answer to a question, as JSON.
///
/// # Errors
///
/// A sentence for the maker that says why there is none.
pub(crate) fn answer(files: &mut Files, question: Question) -> Result<String, String> {
    let open = |name: &str| Opened::of(files, name);
    match question {
        Question::Set { file, text } => {
            files.set(&file, &text)?;
            Ok(nothing())
        }
        Question::Drop { file } => {
            files.drop(&file);
            Ok(nothing())
        }
        Question::Settings { units } => {
            files.tell_in(units.as_deref());
            Ok(nothing())
        }
        Question::Explain { rule } => json(&quillet_ide::rules::page(&rule)),
        Question::Compare { file, old } => compare::compare(files, &file, &old),
        Question::Findings { file } => json(&findings::findings(&open(&file)?)),
        Question::Hover(at) => json(&shown::hover(&open(&at.file)?, at.at)),
        Question::Complete(at) => json(&written::complete(&open(&at.file)?, at.at)),
        Question::About { file, about } => json(&written::about(&open(&file)?, &about)),
        Question::Signature(at) => json(&written::signature(&open(&at.file)?, at.at)),
        Question::Actions(it) => json(&findings::actions(&open(&it.file)?, (it.from, it.to))),
        Question::Mend { file } => json(&findings::mend(&open(&file)?)),
        Question::Inlays { file } => json(&shown::inlays(&open(&file)?)),
        Question::Tokens { file } => json(&text::tokens(&open(&file)?)),
        Question::Folds { file } => json(&text::folds(&open(&file)?)),
        Question::Symbols { file } => json(&text::symbols(&open(&file)?)),
        Question::Format { file } => json(&text::format(&open(&file)?)),
        Question::Definition(at) => json(&names::definition(&open(&at.file)?, at.at)),
        Question::References(at) => json(&names::references(&open(&at.file)?, at.at)),
        Question::Rename { file, at, to } => json(&names::rename(&open(&file)?, at, &to)?),
        Question::Preview(at) => json(&shown::preview(&open(&at.file)?, at.at)),
        Question::Sheet(asked) => json(&made::sheet(&open(&asked.file)?, &asked)?),
        Question::Solid(asked) => json(&made::solid(&open(&asked.file)?, &asked)?),
        Question::Draw(asked) => json(&made::draw(&open(&asked.file)?, &asked)?),
        Question::Room { file, pen, of } => json(&room::room(&open(&file)?, pen.as_deref(), &of)?),
    }
}

fn nothing() -> String {
    "null".to_owned()
}

fn json(answer: &impl Serialize) -> Result<String, String> {
    serde_json::to_string(answer).map_err(|why| format!("this answer cannot be written: {why}"))
}
