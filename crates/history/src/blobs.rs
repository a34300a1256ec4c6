//! One `git cat-file --batch`, asked for each file by the number of its object.

use crate::HistoryError;
use crate::PATIENCE;
use crate::git::{Git, end};
use quillet_model::{LONGEST, ReadError};
use std::io::{self, BufRead, BufReader, Read, Write};
use std::process::{Child, Stdio};
use std::sync::mpsc::{self, Receiver, Sender};
use std::sync::{Mutex, PoisonError};
use std::thread;

/// What an object holds, or why it cannot be had.
type Content = Result<Vec<u8>, ReadError>;

/// The process, and the thread that talks with it; both end with this.
#[derive(Debug)]
pub(crate) struct Blobs {
    process: Mutex<Child>,
    questions: Mutex<Sender<Question>>,
}

#[derive(Debug)]
struct Question {
    object: String,
    reply: Sender<Content>,
}

impl Blobs {
    pub(crate) fn of(git: &Git) -> Result<Self, HistoryError> {
        let mut process = git.begin(&["cat-file", "--batch"], Stdio::piped())?;
        let (questions, asked) = mpsc::channel();
        // It says on standard output what is missing; nobody reads the other.
        drop(process.stderr.take());
        let (to, from) = (process.stdin.take(), process.stdout.take());
        if let (Some(to), Some(from)) = (to, from) {
            thread::spawn(move || answer_all(&asked, to, BufReader::new(from)));
        }
        Ok(Self {
            process: Mutex::new(process),
            questions: Mutex::new(questions),
        })
    }

    /// What an object holds, no longer than a design ever is.
    ///
    /// # Errors
    ///
    /// Where it is longer, git has it not, or git has stopped answering.
    pub(crate) fn content(&self, object: &str) -> Content {
        let (reply, answer) = mpsc::channel();
        let object = object.to_owned();
        let asked = {
            let questions = self
                .questions
                .lock()
                .unwrap_or_else(PoisonError::into_inner);
            questions.send(Question { object, reply })
        };
        let stopped = || ReadError::Unreadable("git has stopped answering".to_owned());
        asked.map_err(|_| stopped())?;
        answer.recv_timeout(PATIENCE).unwrap_or_else(|_| {
            end(&mut self.process.lock().unwrap_or_else(PoisonError::into_inner));
            Err(stopped())
        })
    }
}

impl Drop for Blobs {
    fn drop(&mut self) {
        end(&mut self.process.lock().unwrap_or_else(PoisonError::into_inner));
    }
}

/// Passes each question on; ends where git does, or nobody can ask any more.
fn answer_all(asked: &Receiver<Question>, mut to: impl Write, mut from: impl BufRead) {
    for question in asked {
        let Ok(content) = ask(&question.object, &mut to, &mut from) else {
            return;
        };
        // Who asked may have lost patience.
        let _ = question.reply.send(content);
    }
}

/// Asks for one object: `OBJECT blob SIZE\n` and its bytes and `\n`, or `OBJECT missing\n`.
fn ask(object: &str, to: &mut impl Write, from: &mut impl BufRead) -> io::Result<Content> {
    writeln!(to, "{object}")?;
    to.flush()?;
    let mut head = String::new();
    if from.read_line(&mut head)? == 0 {
        return Err(io::ErrorKind::UnexpectedEof.into());
    }
    let size = head
        .rsplit(' ')
        .next()
        .and_then(|it| it.trim_end().parse::<u64>().ok());
    let Some(size) = size else {
        let why = "git has not fetched it (a partial clone)";
        return Ok(Err(ReadError::Unreadable(why.to_owned())));
    };
    let content = match size > LONGEST {
        true => {
            io::copy(&mut from.take(size), &mut io::sink())?;
            Err(ReadError::TooLong)
        }
        false => {
            let mut bytes = Vec::new();
            from.take(size).read_to_end(&mut bytes)?;
            Ok(bytes)
        }
    };
    from.read_exact(&mut [0])?;
    Ok(content)
}
