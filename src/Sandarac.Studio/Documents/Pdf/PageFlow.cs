namespace Sandarac.Studio.Documents.Pdf;

/// <summary>Puts boxes on pages, one below the other.</summary>
internal sealed class PageFlow
{
    private readonly List<List<(Box Box, float Y)>> _pages = [[]];
    private float _y;

    /// <summary>The pages with their boxes; places from the upper edge of the text.</summary>
    public IReadOnlyList<IReadOnlyList<(Box Box, float Y)>> Pages => _pages;

    /// <summary>The page on which each anchor stands, from 1.</summary>
    public Dictionary<string, int> PageOf { get; } = [];

    /// <summary>Adds boxes; those that are tied to the next go to one page together, unless no page could hold them.</summary>
    public void Add(IEnumerable<Box> boxes)
    {
        List<Box> tied = [];
        foreach (var box in boxes)
        {
            tied.Add(box);
            if (box.IsTiedToNext) continue;
            Place(tied);
            tied.Clear();
        }
        if (tied.Count > 0) Place(tied);
    }

    private void Place(List<Box> tied)
    {
        var height = tied.Sum(b => b.Height) + tied.Skip(1).Sum(b => b.Before);
        if (_y > 0 && (tied[0].BeginsPage || _y + tied[0].Before + height > Sheet.Depth && (height <= Sheet.Depth || tied[0].Height + tied[0].Before + _y > Sheet.Depth))) NewPage();
        foreach (var box in tied) Place(box);
    }

    private void Place(Box box)
    {
        if (_y > 0 && _y + box.Before + box.Height > Sheet.Depth + 0.01f) NewPage();
        if (_y == 0 && box.Head is { } head) Put(head);
        else if (_y > 0) _y += box.Before;
        if (box.Anchor is { } anchor) PageOf[anchor] = _pages.Count;
        Put(box);
    }

    private void Put(Box box)
    {
        _pages[^1].Add((box, _y));
        _y += box.Height;
    }

    private void NewPage()
    {
        _pages.Add([]);
        _y = 0;
    }
}
