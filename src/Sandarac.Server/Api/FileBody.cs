namespace Sandarac.Server.Api;

/// <summary>A small file that is the body of a request. No body is larger than the server takes (<see cref="SandaracServer.MaxRequestBytes"/>), so that it may stand in memory.</summary>
internal static class FileBody
{
    /// <summary>The whole body, to be read from its begin.</summary>
    public static async Task<MemoryStream> ReadAsync(HttpRequest request)
    {
        var body = new MemoryStream();
        await request.Body.CopyToAsync(body, request.HttpContext.RequestAborted);
        body.Position = 0;
        return body;
    }
}
