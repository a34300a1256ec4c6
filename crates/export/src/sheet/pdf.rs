//! The sheet as a PDF at true scale.

use super::content::Content;
use super::page;
use crate::draw::Paper;
use crate::scene::Scene;
use crate::write;

/// Writes a sheet as a PDF.
pub fn pdf(content: &Content, paper: Paper) -> Vec<u8> {
    write::pdf(&content.title, &pages(content, paper))
}

/// The pages of a sheet as they are printed.
pub fn pages(content: &Content, paper: Paper) -> Vec<Scene> {
    let pages = page::pages(content, paper).into_iter();
    pages.map(|it| it.scene).collect()
}
