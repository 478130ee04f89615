//! Which nodes meet which.

/// The neighbours of every node, ascending, one list after the other.
#[derive(Clone, Debug)]
pub(crate) struct Graph {
    starts: Vec<usize>,
    others: Vec<usize>,
}

impl Graph {
    /// Of nodes that meet in the given groups.
    pub fn new<'a>(nodes: usize, groups: impl Iterator<Item = &'a [usize]> + Clone) -> Graph {
        let pairs = || groups.clone().flat_map(|g| g.iter().flat_map(move |&a| g.iter().map(move |&b| (a, b))));
        let mut ends = vec![0; nodes];
        for (a, b) in pairs() {
            ends[a] += usize::from(a != b);
        }
        let mut sum = 0;
        for end in &mut ends {
            (sum, *end) = (sum + *end, sum);
        }
        let mut others = vec![0; sum];
        for (a, b) in pairs().filter(|(a, b)| a != b) {
            others[ends[a]] = b;
            ends[a] += 1;
        }
        Graph::sorted(&ends, others)
    }

    /// Sorts the lists that end where told, and leaves out what is named twice.
    fn sorted(ends: &[usize], mut others: Vec<usize>) -> Graph {
        let mut starts = Vec::with_capacity(ends.len() + 1);
        let (mut from, mut kept) = (0, 0);
        for &end in ends {
            starts.push(kept);
            others[from..end].sort_unstable();
            let first = kept;
            for k in from..end {
                if kept == first || others[kept - 1] != others[k] {
                    others[kept] = others[k];
                    kept += 1;
                }
            }
            from = end;
        }
        starts.push(kept);
        others.truncate(kept);
        Graph { starts, others }
    }

    /// Number of nodes.
    pub fn len(&self) -> usize {
        self.starts.len() - 1
    }

    /// The nodes that one meets.
    pub fn of(&self, node: usize) -> &[usize] {
        &self.others[self.starts[node]..self.starts[node + 1]]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_neighbour_is_named_once() {
        let groups = [vec![2, 0], vec![0, 2], vec![1, 1], vec![0, 2, 3]];
        let graph = Graph::new(5, groups.iter().map(Vec::as_slice));
        let lists: Vec<&[usize]> = (0..graph.len()).map(|n| graph.of(n)).collect();
        assert_eq!(lists, [&[2, 3][..], &[], &[0, 3], &[0, 2], &[]]);
    }
}
