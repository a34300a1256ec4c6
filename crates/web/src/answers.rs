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
        Question::Findings { file } => json(&findings::findings(&Opened::of(files, &file)?)),
        Question::Hover(at) => json(&shown::hover(&Opened::of(files, &at.file)?, at.at)),
        Question::Complete(at) => json(&written::complete(&Opened::of(files, &at.file)?, at.at)),
        Question::About { file, about } => {
            json(&written::about(&Opened::of(files, &file)?, &about))
        }
        Question::Signature(at) => json(&written::signature(&Opened::of(files, &at.file)?, at.at)),
        Question::Actions(it) => json(&findings::actions(
            &Opened::of(files, &it.file)?,
            (it.from, it.to),
        )),
        Question::Mend { file } => json(&findings::mend(&Opened::of(files, &file)?)),
        Question::Inlays { file } => json(&shown::inlays(&Opened::of(files, &file)?)),
        Question::Tokens { file } => json(&text::tokens(&Opened::of(files, &file)?)),
        Question::Folds { file } => json(&text::folds(&Opened::of(files, &file)?)),
        Question::Symbols { file } => json(&text::symbols(&Opened::of(files, &file)?)),
        Question::Format { file } => json(&text::format(&Opened::of(files, &file)?)),
        Question::Definition(at) => json(&names::definition(&Opened::of(files, &at.file)?, at.at)),
        Question::References(at) => json(&names::references(&Opened::of(files, &at.file)?, at.at)),
        Question::Rename { file, at, to } => {
            json(&names::rename(&Opened::of(files, &file)?, at, &to)?)
        }
        Question::Preview(at) => json(&shown::preview(&Opened::of(files, &at.file)?, at.at)),
        Question::Sheet(asked) => json(&made::sheet(&Opened::of(files, &asked.file)?, &asked)?),
        Question::Solid(asked) => json(&made::solid(&Opened::of(files, &asked.file)?, &asked)?),
        Question::Draw(asked) => json(&made::draw(&Opened::of(files, &asked.file)?, &asked)?),
        Question::Room { file, pen, of } => json(&room::room(
            &Opened::of(files, &file)?,
            pen.as_deref(),
            &of,
        )?),
    }
}

fn nothing() -> String {
    "null".to_owned()
}

fn json(answer: &impl Serialize) -> Result<String, String> {
    serde_json::to_string(answer).map_err(|why| format!("this answer cannot be written: {why}"))
}
