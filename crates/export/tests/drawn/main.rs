//! What is drawn, looked at as shapes: drawings of parts and pens, and the sheet that is taken to the lathe.

mod common;
mod drawings;
mod sheets;
