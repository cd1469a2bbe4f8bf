using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>Something that people wrote, with the revision to name in If-Match when it is changed.</summary>
internal sealed record WrittenShape<TContent>(Guid Id, int Revision, bool IsDeleted, DateTime CreatedAt, DateTime UpdatedAt, TContent Content);

/// <summary>What people write into the record: the same six endpoints for samples, layers, stages and relations.</summary>
internal static class WrittenApi
{
    /// <param name="api">The group.</param>
    /// <param name="many">"samples".</param>
    /// <param name="records">The operations.</param>
    public static void MapWritten<TRow, TContent>(this RouteGroupBuilder api, string many, Func<OpenStudio, WrittenRecords<TRow, TContent>> records)
        where TRow : Written<TContent>, new() where TContent : class, new()
    {
        var user = Environment.UserName;
        api.MapGet($"/paintings/{{id:guid}}/{many}", (Guid id, OpenStudio studio) => records(studio).Of(id).Select(Shape<TContent>).ToList()).WithSummary($"A painting's {many}, oldest first");
        api.MapPost($"/paintings/{{id:guid}}/{many}", (Guid id, TContent content, OpenStudio studio, HttpResponse response) => Answer(records(studio).Create(id, content, user), response, StatusCodes.Status201Created))
            .WithSummary($"Writes one more into the painting's {many}").Produces<WrittenShape<TContent>>(StatusCodes.Status201Created);
        api.MapGet($"/{many}/{{id:guid}}", (Guid id, OpenStudio studio, HttpResponse response) => Answer(records(studio).Find(id), response)).WithSummary($"One of the {many}, taken out or not").Produces<WrittenShape<TContent>>();
        api.MapPut($"/{many}/{{id:guid}}", (Guid id, TContent content, OpenStudio studio, HttpRequest request, HttpResponse response) =>
            Answer(records(studio).Change(id, IfMatch.Revision(request), content, user), response)).WithSummary("Replaces what is written; If-Match names the revision that the change was made on").Produces<WrittenShape<TContent>>();
        api.MapDelete($"/{many}/{{id:guid}}", (Guid id, OpenStudio studio, HttpRequest request) =>
        {
            records(studio).Delete(id, IfMatch.Revision(request), user);
            return Results.NoContent();
        }).WithSummary("Takes one out; it can be restored").Produces(StatusCodes.Status204NoContent);
        api.MapPost($"/{many}/{{id:guid}}/restore", (Guid id, int? revision, OpenStudio studio, HttpResponse response) => Answer(records(studio).Restore(id, revision, user), response))
            .WithSummary("Brings one back, or back to what it was at a revision").Produces<WrittenShape<TContent>>();
        api.MapGet($"/{many}/{{id:guid}}/history", (Guid id, OpenStudio studio) => records(studio).History(id)).WithSummary("What one was at each revision, by whom, oldest first");
    }

    /// <summary>A row as it is sent.</summary>
    public static WrittenShape<TContent> Shape<TContent>(Written<TContent> row) where TContent : class, new() =>
        new(row.Id, row.Revision, row.DeletedAt is not null, row.CreatedAt, row.UpdatedAt, row.Content);

    /// <summary>A row as a whole answer, its revision as the entity's tag.</summary>
    public static IResult Answer<TContent>(Written<TContent> row, HttpResponse response, int status = StatusCodes.Status200OK) where TContent : class, new()
    {
        IfMatch.Tell(response, row.Revision);
        return Results.Json(Shape(row), statusCode: status);
    }
}
