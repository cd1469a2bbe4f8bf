using System.Net;

namespace Sandarac.Server.Tests;

/// <summary>Marks that are being taught with are stored as they are made.</summary>
public sealed class MarksTests(RunningServer server)
{
    private string Marks => $"/api/paintings/{server.Seed.Painting.Id}/marks";

    [Fact]
    public async Task Marks_are_stored_read_again_and_survive_a_restart()
    {
        var before = await server.Client.GetJsonAsync(Marks);
        var revision = before.GetProperty("revision").GetInt32();
        using var stored = await server.Client.SendJsonAsync(HttpMethod.Put, Marks, Sheet("retouching"), revision);
        var sheet = await stored.JsonAsync();
        Assert.Equal($"\"{revision + 1}\"", stored.Headers.ETag!.Tag);
        Assert.Equal(["retouching", "original"], sheet.GetProperty("classes").EnumerateArray().Select(c => c.GetString()));
        Assert.Equal(2.5, sheet.GetProperty("strokeWidth").GetDouble());
        await server.RestartAsync();
        var after = await server.Client.GetJsonAsync(Marks);
        Assert.Equal(sheet.ToString(), after.ToString());
        Assert.Equal(10.5, after.GetProperty("marks").GetProperty("features")[0].GetProperty("geometry").GetProperty("coordinates")[0][0].GetDouble());

        using var emptied = await server.Client.SendJsonAsync(HttpMethod.Put, Marks, new { }, revision + 1);
        Assert.Empty((await emptied.JsonAsync()).GetProperty("marks").GetProperty("features").EnumerateArray());
    }

    [Fact]
    public async Task Of_changes_at_once_on_one_revision_one_is_kept()
    {
        var revision = (await server.Client.GetJsonAsync(Marks)).GetProperty("revision").GetInt32();
        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => server.Client.SendJsonAsync(HttpMethod.Put, Marks, Sheet("retouching"), revision)));
        Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.OK));
        await answers.First(a => a.StatusCode != HttpStatusCode.OK).ProblemAsync(HttpStatusCode.PreconditionFailed, "marks-changed");
        Assert.Equal(5, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
        using var unnamed = await server.Client.SendJsonAsync(HttpMethod.Put, Marks, Sheet("retouching"));
        await unnamed.ProblemAsync(HttpStatusCode.PreconditionRequired, "revision-missing");
    }

    [Theory]
    [InlineData("""{"classes":["original"],"marks":MARK}""", HttpStatusCode.BadRequest, "marks")]
    [InlineData("""{"classes":["retouching"],"marks":{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"class":"retouching"},"geometry":{"type":"LineString","coordinates":[[1,2],[1e999,4]]}}]}}""", HttpStatusCode.BadRequest, "marks")]
    [InlineData("""{"classes":["retouching"],"marks":{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"class":"retouching"},"geometry":{"type":"LineString","coordinates":[[1,2],[NaN,4]]}}]}}""", HttpStatusCode.BadRequest, "request-malformed")]
    [InlineData("""{"classes":["retouching"],"marks":{"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":null}]}}""", HttpStatusCode.BadRequest, "marks")]
    [InlineData("""{"classes":["retouching"],"marks":[]}""", HttpStatusCode.BadRequest, "marks")]
    [InlineData("""{"classes":["retouching"," Retouching "]}""", HttpStatusCode.BadRequest, "mark-classes")]
    [InlineData("""{"classes":[""]}""", HttpStatusCode.BadRequest, "mark-classes")]
    [InlineData("""{"classes":[null]}""", HttpStatusCode.BadRequest, "mark-classes")]
    [InlineData("""{"classes":["1","2","3","4","5","6","7","8","9"]}""", HttpStatusCode.BadRequest, "mark-classes")]
    [InlineData("""{"strokeWidth":0}""", HttpStatusCode.BadRequest, "parameter-value")]
    [InlineData("""{"strokeWidth":50.5}""", HttpStatusCode.BadRequest, "parameter-value")]
    [InlineData("""{"strokeWidth":"wide"}""", HttpStatusCode.BadRequest, "request-malformed")]
    [InlineData("""{"layers":["00000000-0000-0000-0000-000000000001"]}""", HttpStatusCode.NotFound, "unknown-photograph")]
    public async Task Unsound_marks_are_refused_and_change_nothing(string body, HttpStatusCode status, string code)
    {
        var before = await server.Client.GetJsonAsync(Marks);
        var mark = """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"class":"retouching"},"geometry":{"type":"LineString","coordinates":[[1,2],[3,4]]}}]}""";
        using var answer = await server.Client.SendJsonAsync(HttpMethod.Put, Marks, body.Replace("MARK", mark, StringComparison.Ordinal), before.GetProperty("revision").GetInt32());
        await answer.ProblemAsync(status, code);
        Assert.Equal(before.ToString(), (await server.Client.GetJsonAsync(Marks)).ToString());
    }

    [Fact]
    public async Task More_than_the_server_takes_and_an_unknown_painting_are_refused()
    {
        using var huge = await server.Client.SendJsonAsync(HttpMethod.Put, Marks, $$"""{"classes":["{{new string('a', 3 << 20)}}"]}""", 0);
        await huge.ProblemAsync(HttpStatusCode.RequestEntityTooLarge, "request-too-large");
        using var unknown = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/paintings/{Guid.NewGuid()}/marks", new { }, 0);
        await unknown.ProblemAsync(HttpStatusCode.NotFound, "unknown-painting");
    }

    private object Sheet(string marked) => new
    {
        classes = new[] { " retouching", "original" }, strokeWidth = 2.5, layers = new[] { server.Seed.Deep.Id },
        marks = new { type = "FeatureCollection", features = new[] { new { type = "Feature", properties = new Dictionary<string, string> { ["class"] = marked }, geometry = new { type = "LineString", coordinates = new[] { new[] { 10.5, 20 }, [14, 22] } } } } },
    };
}
