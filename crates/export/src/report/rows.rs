//! Rows for a spreadsheet.

/// A head and the rows under it as CSV (RFC 4180, lines ended by `\n`).
pub(super) fn csv(head: &[String], rows: impl IntoIterator<Item = Vec<String>>) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    // Writing to memory cannot fail, and every row is as long as its head.
    drop(writer.write_record(head));
    for row in rows {
        drop(writer.write_record(&row));
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}
