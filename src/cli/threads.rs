//! The threads to compute on: as many as asked for, or the calling one where no other can start.

use rayon::{ThreadBuilder, ThreadPool, ThreadPoolBuildError, ThreadPoolBuilder};
use std::io;
use std::sync::OnceLock;

/// One pool for the whole run, or `None` where the calling thread belongs to one already.
static POOL: OnceLock<Option<ThreadPool>> = OnceLock::new();

/// Computes on all cores.
pub(super) fn compute<R: Send>(work: impl FnOnce() -> R + Send) -> R {
    match POOL.get_or_init(|| pool(0).ok()) {
        Some(pool) => pool.install(work),
        None => work(),
    }
}

/// So many threads, 0 for as many as there are cores; one is the calling thread, and so are all that cannot start.
///
/// # Errors
/// When the calling thread belongs to a pool already.
pub(super) fn pool(threads: usize) -> Result<ThreadPool, ThreadPoolBuildError> {
    build(threads, |thread| std::thread::Builder::new().spawn(|| thread.run()).map(drop))
}

fn build(
    threads: usize,
    spawn: impl FnMut(ThreadBuilder) -> io::Result<()>,
) -> Result<ThreadPool, ThreadPoolBuildError> {
    let alone = || ThreadPoolBuilder::new().num_threads(1).use_current_thread().build();
    if threads == 1 {
        return alone();
    }
    ThreadPoolBuilder::new().num_threads(threads).spawn_handler(spawn).build().or_else(|_| alone())
}

#[cfg(test)]
mod tests {
    use super::build;
    use rayon::prelude::*;
    use std::io;
    use std::thread;

    #[test]
    fn where_no_thread_starts_the_calling_one_computes() {
        for threads in [0, 1, 8] {
            // Each in a thread of its own: a thread belongs to one pool for good.
            let computed = thread::spawn(move || {
                let pool = build(threads, |_| Err(io::Error::from(io::ErrorKind::WouldBlock)));
                let here = thread::current().id();
                let square = |i: u64| (thread::current().id() == here, i * i);
                let squares =
                    pool.expect("a pool").install(|| (0..1000).into_par_iter().map(square).collect());
                let squares: Vec<(bool, u64)> = squares;
                squares
            });
            let expected: Vec<(bool, u64)> = (0..1000).map(|i| (true, i * i)).collect();
            assert_eq!(computed.join().expect("it ends"), expected);
        }
    }
}
