//! The rules: one file a rule, beside its page.
