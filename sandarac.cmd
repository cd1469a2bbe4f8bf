@echo off
rem Builds what is out of date, then runs: sandarac demo
setlocal
set ROOT=%~dp0
if not exist "%ROOT%viewer\node_modules" call npm ci --prefix "%ROOT%viewer" --no-audit --no-fund || exit /b 1
if not exist "%ROOT%src\Sandarac.Server\wwwroot\viewer\easel.js" call npm run --prefix "%ROOT%viewer" build || exit /b 1
set PROJECT=src\Sandarac.Cli
if "%1"=="bench" set PROJECT=benchmarks\Sandarac.Benchmarks
dotnet run --project "%ROOT%%PROJECT%" -c Release -v q -- %*
