using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Cli.Demo;

/// <summary>Writes what is not there yet: a demonstration that was stopped half way goes on, and one that is prepared again neither doubles a row nor brings back what a person changed or took out.</summary>
internal static class WritingOnce
{
    /// <summary>The row that was first written so, changed or taken out since or not; null when there is none.</summary>
    public static TRow? First<TRow, TContent>(this WrittenRecords<TRow, TContent> records, Guid paintingId, Func<TContent, bool> isIt) where TRow : Written<TContent>, new() where TContent : class, new() =>
        records.Of(paintingId).Concat(records.Removed(paintingId)).FirstOrDefault(r => isIt(records.History(r.Id)[0].Content));

    /// <summary>The row that was first written with this key; written now when there is none.</summary>
    public static TRow Once<TRow, TContent>(this WrittenRecords<TRow, TContent> records, Guid paintingId, TContent content, Func<TContent, object> key) where TRow : Written<TContent>, new() where TContent : class, new() =>
        records.First(paintingId, c => key(c).Equals(key(content))) ?? records.Create(paintingId, content, Story.Conservator);
}
