//! What packagers need: completions for shells, and the manual.

use std::process::{Command, Output};

fn bunkline(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_bunkline")).args(arguments).output().expect("the program runs")
}

fn printed(arguments: &[&str]) -> String {
    let output = bunkline(arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}");
    assert!(output.stderr.is_empty(), "{arguments:?}");
    String::from_utf8(output.stdout).expect("text")
}

/// The commands that help lists.
fn commands() -> Vec<String> {
    let help = printed(&["--help"]);
    let list = help.split("Commands:\n").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("a list");
    let names = list.lines().filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    names.filter_map(|line| line.split_whitespace().next()).map(str::to_string).collect()
}

#[test]
fn each_shell_completes_each_command() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let script = printed(&["completions", shell]);
        for command in commands() {
            assert!(script.contains(&command), "{shell} does not know {command}");
        }
        for option in ["write-plan", "in-place", "units"] {
            assert!(script.contains(option), "{shell} does not know --{option}");
        }
    }
    let output = bunkline(&["completions", "abacus"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
}

/// A shell takes what is printed for it: the script that completes `bunkline fl` to `flatten`.
#[cfg(unix)]
#[test]
fn bash_completes() {
    let ask = "COMP_WORDS=(bunkline fl); COMP_CWORD=1; _bunkline bunkline fl bunkline; printf '%s\\n' \"${COMPREPLY[@]}\"";
    let script = printed(&["completions", "bash"]) + "\n" + ask;
    // Where there is no such shell there is nothing to try.
    let Ok(output) = Command::new("bash").args(["--norc", "-c", &script]).output() else { return };
    assert_eq!(
        String::from_utf8_lossy(&output.stdout),
        "flatten\n",
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
}

#[test]
fn the_manual_has_a_page_for_each_command() {
    let page = printed(&["man"]);
    assert!(page.contains(".TH bunkline 1"), "{page}");
    for command in commands() {
        let page = printed(&["man", &command]);
        assert!(page.contains(&format!(".TH bunkline-{command} 1")), "{page}");
        assert!(page.contains(".SH SYNOPSIS"), "{page}");
    }
    let output = bunkline(&["man", "chek"]);
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).expect("text");
    assert!(said.contains("expected a command of bunkline, found `chek`"), "{said}");
    assert!(said.contains("did you mean `check`?"), "{said}");
}
