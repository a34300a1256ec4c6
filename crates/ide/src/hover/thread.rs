//! What is shown of a thread.

use crate::sheet::Sheet;
use quillet_standards::thread::{Hand, ThreadForm, ThreadSide};

/// The sizes of a thread; of one side where only that is meant.
pub(super) fn sizes(sheet: &mut Sheet, thread: &ThreadForm, side: Option<ThreadSide>) {
    sheet.size("pitch", thread.pitch());
    if thread.starts() > 1 {
        sheet.size(&format!("lead, {} starts", thread.starts()), thread.lead());
    }
    if thread.hand() == Hand::Left {
        sheet.row("hand", "left");
    }
    sheet.size("major ⌀", thread.major());
    sheet.size("pitch ⌀", thread.pitch_diameter());
    if side != Some(ThreadSide::Internal) {
        outside(sheet, thread);
    }
    if side != Some(ThreadSide::External) {
        inside(sheet, thread);
    }
    standing(sheet, thread);
}

fn outside(sheet: &mut Sheet, thread: &ThreadForm) {
    sheet.size("root ⌀, outside", thread.root_diameter());
    if let Ok(tenon) = thread.tenon() {
        let class = thread.class(ThreadSide::External);
        sheet.limits(&format!("tenon for the die, {class}"), tenon.range);
    }
}

fn inside(sheet: &mut Sheet, thread: &ThreadForm) {
    sheet.size("minor ⌀, inside", thread.minor_diameter());
    let drill = thread.tap_drill();
    sheet.size("tap drill", drill.diameter);
    sheet.row("thread it leaves", &drill.percent.to_string());
    sheet.row("tap drill from", drill.source.text());
}

/// Whether the size is listed, and where.
fn standing(sheet: &mut Sheet, thread: &ThreadForm) {
    match thread.known() {
        Some(known) => sheet.row("listed", known.source().text()),
        None => sheet.row("listed", "in no series, and not usual on pens"),
    };
}
