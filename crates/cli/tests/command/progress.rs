//! How far a command has come, on a terminal: told, and gone however it ends.

use crate::run::{command, repository};
use rustix::process::{Pid, Signal, kill_process};
use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};
use std::fs::{File, OpenOptions};
use std::io::Read;
use std::os::unix::process::ExitStatusExt;
use std::process::Stdio;

/// All that comes until `part` stands in it; all there is where that is none.
fn read_until(terminal: &mut File, part: Option<&str>) -> String {
    let (mut all, mut some) = (String::new(), [0; 256]);
    // A terminal that nobody holds any more cannot be read.
    while let Ok(count) = terminal.read(&mut some) {
        all += &String::from_utf8_lossy(&some[..count]);
        if count == 0 || part.is_some_and(|part| all.contains(part)) {
            break;
        }
    }
    all
}

#[test]
fn a_line_that_tells_how_far_it_is_goes_when_the_command_is_interrupted() {
    let folder = repository("");
    let terminal = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).unwrap();
    grantpt(&terminal).unwrap();
    unlockpt(&terminal).unwrap();
    let name = ptsname(&terminal, Vec::new()).unwrap();
    let far = OpenOptions::new().write(true).open(name.to_str().unwrap());
    let mut spread = command(folder.path());
    spread.args(["spread", "heron.quillet", "--cases", "100000"]);
    spread.env("TERM", "xterm").stdout(Stdio::null());
    let mut child = spread.stderr(far.unwrap()).spawn().unwrap();
    // The far end is the child's alone.
    drop(spread);
    let mut terminal = File::from(terminal);
    let told = read_until(&mut terminal, Some(" of 100000 pens\u{1b}[K"));
    assert!(told.contains(" of 100000 pens"), "{told:?}");
    let id = Pid::from_child(&child);
    kill_process(id, Signal::INT).unwrap();
    let rest = read_until(&mut terminal, None);
    assert_eq!(child.wait().unwrap().signal(), Some(Signal::INT.as_raw()));
    let last = rest.rsplit_once("\r\u{1b}[K").map(|it| it.1);
    assert_eq!(last, Some(""), "{told:?} {rest:?}");
}
